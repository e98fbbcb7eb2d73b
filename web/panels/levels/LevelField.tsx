import { Show } from 'solid-js'

/** One field of a level, with what it takes and what is wrong with it. */
export function LevelField(props: {
  form: string
  name: string
  label: string
  value: string
  fault: string | null
  write: (value: string) => void
  hint?: string
  type?: string
  wide?: true
  list?: string
}) {
  const id = () => `${props.form}-${props.name}`
  return (
    <div class={props.wide ? 'layout-field wide' : 'layout-field'}>
      <label for={id()}>{props.label}</label>
      <input
        id={id()}
        type={props.type ?? 'text'}
        maxlength="1000"
        list={props.list}
        value={props.value}
        aria-invalid={props.fault !== null && props.value !== '' ? 'true' : undefined}
        aria-describedby={`${id()}-said`}
        onInput={(event) => props.write(event.currentTarget.value)}
      />
      <small id={`${id()}-said`}>
        <Show when={props.fault !== null && props.value !== ''} fallback={props.hint ?? ''}>
          {props.fault}
        </Show>
      </small>
    </div>
  )
}
