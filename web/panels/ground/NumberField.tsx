import { createUniqueId } from 'solid-js'
import { withUnit } from '../../ui/format-value.ts'

/** A number with its unit that an analysis is told; what is no number, or out of its range, is not passed on. */
export function NumberField(props: {
  name: string
  unit: string
  value: number
  least?: number
  most?: number
  step?: number
  onChange: (value: number) => void
}) {
  const id = createUniqueId()
  return (
    <div class="ground-field">
      <label for={id}>
        {props.unit === '' ? props.name : `${props.name}, ${withUnit('', props.unit).trim()}`}
      </label>
      <input
        id={id}
        type="number"
        inputmode="decimal"
        min={props.least}
        max={props.most}
        step={props.step ?? 'any'}
        value={Number(props.value.toFixed(6))}
        onChange={(event) => {
          const { valueAsNumber: value } = event.currentTarget
          if (
            Number.isFinite(value) &&
            value >= (props.least ?? -Infinity) &&
            value <= (props.most ?? Infinity)
          )
            props.onChange(value)
          else event.currentTarget.value = String(Number(props.value.toFixed(6)))
        }}
      />
    </div>
  )
}
