import { createSignal, For, Show } from 'solid-js'
import { selectedInstrument, selectedPoint } from '../../state/selection.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import type { SignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'

/** Measuring points and instruments that something is about: what is selected is offered, others are named. */
export function PlacesField<F extends string>(props: {
  form: SignedForm<F | 'places'>
  places: readonly string[]
  write: (places: readonly string[]) => void
}) {
  const [typed, setTyped] = createSignal('')
  const selected = () => selectedPoint()?.id ?? selectedInstrument()?.id ?? null
  const isKnown = (id: string) => siteLookup().pointById.has(id) || siteLookup().instrumentById.has(id)
  const offered = () => {
    const id = selected()
    return id !== null && !props.places.includes(id) ? id : null
  }
  const add = (id: string) => {
    if (!props.places.includes(id)) props.write([...props.places, id])
    setTyped('')
  }
  const named = () => typed().trim()
  const names = () => {
    const site = siteDocument()
    return [...new Set([...(site?.instruments ?? []), ...(site?.points ?? [])].map(({ id }) => id))]
  }
  return (
    <FormField
      form={props.form}
      field="places"
      label="About"
      wide
      hint="points or instruments, as many as it is about; none: about the site"
    >
      <div class="minute-places">
        <For each={props.places}>
          {(place) => (
            <button
              type="button"
              aria-label={`Take ${place} away`}
              onClick={() => props.write(props.places.filter((one) => one !== place))}
            >
              {place} ×
            </button>
          )}
        </For>
        <Show when={offered()}>
          {(id) => (
            <button type="button" onClick={() => add(id())}>
              Add {id()}, which is selected
            </button>
          )}
        </Show>
      </div>
      <div class="minute-name">
        <input
          id={props.form.idOf('places')}
          {...props.form.faults.troubled('places')}
          type="text"
          list={`${props.form.idOf('places')}-known`}
          maxlength="200"
          value={typed()}
          onInput={(event) => setTyped(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || named() === '') return
            event.preventDefault()
            if (isKnown(named())) add(named())
          }}
        />
        <datalist id={`${props.form.idOf('places')}-known`}>
          <For each={names()}>{(one) => <option value={one} />}</For>
        </datalist>
        <Show when={named() !== ''}>
          <Show
            when={isKnown(named())}
            fallback={<span class="waiting">no point or instrument of this name</span>}
          >
            <button type="button" onClick={() => add(named())}>
              Add {named()}
            </button>
          </Show>
        </Show>
      </div>
    </FormField>
  )
}
