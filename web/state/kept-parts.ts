import { createSignal } from 'solid-js'
import { keptAtEpochMs } from './ask-server.ts'
import { siteDocument } from './site-document.ts'

/** What is asked for apart from the states, and may come from this device while they come from the server. */
export type Part = 'records' | 'readings' | 'field guide'

interface KeptPart {
  readonly site: string
  readonly part: Part
  readonly keptAtEpochMs: number
  readonly askAgain: () => Promise<unknown>
}

const [kept, setKept] = createSignal<readonly KeptPart[]>([])

/** Parts of the open site that are shown as this device kept them; empty: all of them are the server's. */
export const keptParts = (): readonly KeptPart[] =>
  kept().filter(({ site }) => site === siteDocument()?.facts.id)

/** Says of a document that was taken whether this device had kept it; `askAgain` asks until it is the server's. */
export function reportPart(
  site: string,
  part: Part,
  document: object,
  askAgain: () => Promise<unknown>,
): void {
  const at = keptAtEpochMs(document)
  const others = kept().filter((one) => one.site !== site || one.part !== part)
  if (at === null && others.length === kept().length) return
  setKept(at === null ? others : [...others, { site, part, keptAtEpochMs: at, askAgain }])
}

let asking = false

/** Asks again for what is shown as kept, one round at a time. What fails stays, and is said to be kept. */
export async function askKeptAgain(): Promise<void> {
  if (asking) return
  asking = true
  try {
    await Promise.allSettled(keptParts().map(({ askAgain }) => askAgain()))
  } finally {
    asking = false
  }
}
