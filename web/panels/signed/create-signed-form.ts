import { createSignal, createUniqueId } from 'solid-js'
import { signedInName } from '../../state/own-account.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { createFaults } from '../create-faults.tsx'

/** A form whose record is kept under somebody's name: what its fields and its button need. */
export type SignedForm<F extends string> = ReturnType<typeof createSignedForm<F>>

/**
 * `fieldOfColumn`: beside which field the server's word on a column is told. `name`, `writeName`: where the typed name is
 * kept, where that is not the form itself.
 */
export function createSignedForm<F extends string>(
  fieldOfColumn: (column: string) => F | null | undefined,
  [name, writeName]: readonly [() => string, (name: string) => void] = createSignal(rememberedName()),
) {
  const form = createUniqueId()
  const faults = createFaults<F | 'author'>(form, (column) =>
    column === undefined ? null : column === 'author' ? 'author' : (fieldOfColumn(String(column)) ?? null),
  )
  const [sending, setSending] = createSignal(false)
  /** Of whoever is signed in, whatever was typed: the server signs with the account's name. */
  const author = () => signedInName() ?? name()
  const send = async (work: (author: string) => Promise<unknown>): Promise<void> => {
    faults.clear()
    rememberName(author())
    setSending(true)
    try {
      await work(author())
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSending(false)
    }
  }
  return {
    idOf: (field: F | 'author' | 'names') => `${form}-${field}`,
    faults,
    author,
    writeName,
    sending,
    /** Does the work in the author's name; what the server has against it is told beside the fields. */
    send,
    /** The same, when the form is submitted. */
    submits: (work: (author: string) => Promise<unknown>) => (event: SubmitEvent) => {
      event.preventDefault()
      void send(work)
    },
  }
}
