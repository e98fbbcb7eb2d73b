import { groundMap, type MapRequest } from '#domain/ground/ground-map.ts'
import { plainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import { type NetworkRequest, studyNetwork } from '#domain/radio/network-study.ts'

/** One thing to work out, and the number its answer carries. */
export type DerivationMessage = { readonly turn: number } & (
  | { readonly request: MapRequest }
  | { readonly network: NetworkRequest }
  | { readonly drawdown: Parameters<typeof plainDrawdownFit> }
)

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<DerivationMessage>) => void) | null
  postMessage(message: unknown): void
}

scope.onmessage = ({ data }) => {
  const { turn } = data
  try {
    scope.postMessage({ turn, outcome: outcomeOf(data) })
  } catch (cause) {
    scope.postMessage({ turn, failure: cause instanceof Error ? cause.message : String(cause) })
  }
}

function outcomeOf(data: DerivationMessage) {
  if ('network' in data) return studyNetwork(data.network)
  return 'drawdown' in data ? plainDrawdownFit(...data.drawdown) : groundMap(data.request)
}
