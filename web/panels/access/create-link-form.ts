import { createSignal } from 'solid-js'
import { sentencesOf } from './sentences-of.ts'

/** A form that a link opens: what the link is for is asked of the server at once, and the page opens anew when it was used. */
export function createLinkForm<T>(look: () => Promise<T>, use: (said: FormData) => Promise<unknown>) {
  const [offered, setOffered] = createSignal<T | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const [asking, setAsking] = createSignal(false)
  const fail = (cause: unknown) => {
    setTroubles(sentencesOf(cause))
  }
  look().then((answer) => setOffered(() => answer), fail)
  return {
    /** Null: not known yet, or the link is none any more. */
    offered,
    troubles,
    asking,
    async send(event: SubmitEvent): Promise<void> {
      event.preventDefault()
      setTroubles([])
      setAsking(true)
      try {
        await use(new FormData(event.currentTarget as HTMLFormElement))
        location.reload()
      } catch (cause) {
        fail(cause)
        setAsking(false)
      }
    },
  }
}
