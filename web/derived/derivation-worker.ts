import { groundMap, type MapRequest } from '#domain/ground/ground-map.ts'
import { type NetworkRequest, studyNetwork } from '#domain/radio/network-study.ts'

/** One thing to work out, and the number its answer carries. */
export type DerivationMessage = { readonly turn: number } & (
  | { readonly request: MapRequest }
  | { readonly network: NetworkRequest }
)

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<DerivationMessage>) => void) | null
  postMessage(message: unknown): void
}

scope.onmessage = ({ data }) => {
  const { turn } = data
  try {
    const outcome = 'network' in data ? studyNetwork(data.network) : groundMap(data.request)
    scope.postMessage({ turn, outcome })
  } catch (cause) {
    scope.postMessage({ turn, failure: cause instanceof Error ? cause.message : String(cause) })
  }
}
