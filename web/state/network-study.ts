import { createSignal } from 'solid-js'
import type { NetworkStudy } from '#domain/radio/network-study.ts'

const [networkStudy, setNetworkStudy] = createSignal<NetworkStudy | null>(null)
const [networkTrouble, setNetworkTrouble] = createSignal<string | null>(null)

/** What the tests say of the network at the clock; null while it is worked out, or cannot be. */
export { networkStudy, networkTrouble }

export function showNetworkStudy(study: NetworkStudy | null): void {
  setNetworkTrouble(null)
  setNetworkStudy(study)
}

/** Why there is none; what was shown before goes. */
export function reportNetworkTrouble(sentence: string): void {
  setNetworkStudy(null)
  setNetworkTrouble(sentence)
}
