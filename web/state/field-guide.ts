import { createSignal } from 'solid-js'
import type { FieldGuide } from '#contract/field-guide.ts'
import { askServer, askServerWithin, sentenceOf } from './ask-server.ts'
import { reportPart } from './kept-parts.ts'
import { largeWithinMs, sitePath } from './open-site.ts'

const [guide, setGuide] = createSignal<FieldGuide | null>(null)
const [trouble, setTrouble] = createSignal<string | null>(null)

export {
  /** What is to be known of the open site's sensors along the works; null until it is here. */
  guide as fieldGuide,
  trouble as fieldGuideTrouble,
}

/** Asks for a site's guide; without a network the one that was kept. */
export async function fetchFieldGuide(site: string): Promise<void> {
  try {
    takeGuide(await askServer<FieldGuide>(sitePath(site, '/field-guide')))
  } catch (cause) {
    setTrouble(sentenceOf(cause))
  }
}

function takeGuide(taken: FieldGuide): void {
  setGuide(taken)
  setTrouble(null)
  const path = sitePath(taken.site, '/field-guide')
  const askAgain = () => askServerWithin<FieldGuide>(path, largeWithinMs, { fresh: true }).then(takeGuide)
  reportPart(taken.site, 'field guide', taken, askAgain)
}
