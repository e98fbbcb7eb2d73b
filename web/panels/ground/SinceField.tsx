import { createUniqueId } from 'solid-js'
import { siteDocument } from '../../state/site-document.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'

/** An instant of the site's own time that an analysis counts from. */
export function SinceField(props: {
  name: string
  atEpochMs: number
  onChange: (atEpochMs: number) => void
}) {
  const id = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <div class="ground-field">
      <label for={id}>{props.name}</label>
      <input
        id={id}
        type="datetime-local"
        value={toLocalField(props.atEpochMs, zone())}
        onChange={(event) => {
          const at = fromLocalField(event.currentTarget.value, zone())
          if (at !== null) props.onChange(at)
        }}
      />
    </div>
  )
}
