import { createSignal } from 'solid-js'
import type { FieldGuide } from '#contract/field-guide.ts'
import { askServer, sentenceOf } from './ask-server.ts'
import { sitePath } from './open-site.ts'

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
    setGuide(await askServer<FieldGuide>(sitePath(site, '/field-guide')))
    setTrouble(null)
  } catch (cause) {
    setTrouble(sentenceOf(cause))
  }
}
