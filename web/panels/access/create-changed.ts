import { createSignal } from 'solid-js'
import { sentencesOf } from './sentences-of.ts'

/** Makes a change and shows what holds afterwards, whether it was taken or not. True: it was. */
export type Change = (task: () => Promise<unknown>) => Promise<boolean>

/** What the server holds of something, asked at once and anew after every change. */
export function createChanged<T>(ask: () => Promise<T>) {
  const [known, setKnown] = createSignal<T | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const fail = (cause: unknown) => {
    setTroubles(sentencesOf(cause))
    return false
  }
  const askAnew = () => ask().then((answer) => setKnown(() => answer), fail)
  void askAnew()
  const change: Change = async (task) => {
    setTroubles([])
    const taken = await task().then(() => true, fail)
    await askAnew()
    return taken
  }
  return {
    /** Null: not known yet. */
    known,
    /** What was wrong with the last change, or why it is not known what holds. */
    troubles,
    change,
  }
}
