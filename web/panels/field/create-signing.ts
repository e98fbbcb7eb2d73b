import { createSignal } from 'solid-js'
import { writeDown } from '../../state/field-work.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { ownPosition } from '../../state/own-position.ts'
import { announce } from '../../ui/announce.ts'
import { keptTrouble } from './kept-trouble.ts'

export type Signing = ReturnType<typeof createSigning>

/** Who signs, and what became of the last attempt to keep something: said where it was kept, told where it was not. */
export function createSigning() {
  const [author, setAuthor] = createSignal(rememberedName())
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [said, setSaid] = createSignal<string | null>(null)
  return {
    author,
    setAuthor,
    trouble,
    said,
    /** Tells what stands in the way, null: nothing does; what was said of an earlier one goes. True: something does. */
    hinder(against: string | null): boolean {
      setSaid(null)
      setTrouble(against)
      return against !== null
    },
    /** Writes it down under the name and from where one stands, and says `sentence`. Whether it was kept. */
    async keep(
      draft: Omit<Parameters<typeof writeDown>[0], 'author' | 'position'>,
      sentence: string,
      announced = sentence,
    ): Promise<boolean> {
      rememberName(author())
      try {
        await writeDown({ ...draft, author: author(), position: ownPosition() })
      } catch (cause) {
        setSaid(null)
        setTrouble(keptTrouble(cause))
        return false
      }
      setTrouble(null)
      setSaid(sentence)
      announce(announced)
      return true
    },
  }
}
