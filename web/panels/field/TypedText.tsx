import { createUniqueId, For, Show } from 'solid-js'
import { siteDocument } from '../../state/site-document.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'

/** A line of text with its label. */
export function TypedText(props: {
  label: string
  value: string
  list?: readonly string[]
  onChange: (value: string) => void
}) {
  const id = createUniqueId()
  return (
    <div class="field-cell">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        autocomplete="off"
        list={props.list ? `${id}-list` : undefined}
        value={props.value}
        onInput={(event) => props.onChange(event.currentTarget.value)}
      />
      <Show when={props.list}>
        {(list) => (
          <datalist id={`${id}-list`}>
            <For each={list()}>{(one) => <option value={one} />}</For>
          </datalist>
        )}
      </Show>
    </div>
  )
}

/** One of some words; the empty word stands for none. */
export function TypedChoice<W extends string>(props: {
  label: string
  value: W
  options: readonly { readonly word: W; readonly name: string }[]
  onChange: (value: W) => void
}) {
  const id = createUniqueId()
  return (
    <div class="field-cell">
      <label for={id}>{props.label}</label>
      <select
        id={id}
        value={props.value}
        onChange={(event) => props.onChange(event.currentTarget.value as W)}
      >
        <For each={props.options}>{({ word, name }) => <option value={word}>{name}</option>}</For>
      </select>
    </div>
  )
}

/** An instant in the site's zone; null while it cannot be read. */
export function TypedInstant(props: {
  label: string
  value: number | null
  onChange: (value: number | null) => void
}) {
  const id = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <div class="field-cell">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        type="datetime-local"
        value={props.value === null ? '' : toLocalField(props.value, zone())}
        onChange={(event) => props.onChange(fromLocalField(event.currentTarget.value, zone()))}
      />
    </div>
  )
}
