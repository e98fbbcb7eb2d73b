import { createSignal, type JSX, Show } from 'solid-js'
import { ServerRefused, sentenceOf } from '../state/ask-server.ts'

interface Fault<F extends string> {
  readonly field: F | null
  readonly message: string
}

/** What the server said is wrong with a form, told beside its fields; `form` begins the ids of the fields. */
export function createFaults<F extends string>(
  form: string,
  fieldOfIssue: (column: string | number | undefined) => F | null,
) {
  const [faults, setFaults] = createSignal<readonly Fault<F>[]>([])
  const messagesAt = (field: F | null) =>
    faults()
      .filter((fault) => fault.field === field)
      .map(({ message }) => message)
      .join(' ')
  /** What is beside a field is in sight by its focus; what is beside none must not wait below the foot of a sheet. */
  const bringIntoSight = (element: HTMLElement) => {
    if (messagesAt(null) !== '') element.scrollIntoView?.({ block: 'nearest' })
  }
  return {
    clear: () => setFaults([]),
    messagesAt: (field: F) => messagesAt(field),
    take(cause: unknown) {
      const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
      setFaults(
        issues.length > 0
          ? issues.map(({ column, message }) => ({ field: fieldOfIssue(column), message }))
          : [{ field: null, message: sentenceOf(cause) }],
      )
      const first = faults().find(({ field }) => field !== null)?.field
      if (first) document.getElementById(`${form}-${first}`)?.focus()
    },
    /** Attributes of a field that has a fault. */
    troubled: (field: F) =>
      messagesAt(field) === ''
        ? {}
        : ({ 'aria-invalid': 'true', 'aria-describedby': `${form}-${field}-fault` } as const),
    textAt: (field: F): JSX.Element => (
      <Show when={messagesAt(field) !== ''}>
        <p class="field-fault" id={`${form}-${field}-fault`}>
          {messagesAt(field)}
        </p>
      </Show>
    ),
    /** Stands once in the form. */
    summary: (): JSX.Element => (
      <Show when={faults().length > 0}>
        <p class="trouble" role="alert" ref={(element) => queueMicrotask(() => bringIntoSight(element))}>
          {messagesAt(null) ||
            `Nothing was saved: ${faults().length === 1 ? 'one thing is' : `${faults().length} things are`} wrong, told beside the fields.`}
        </p>
      </Show>
    ),
  }
}
