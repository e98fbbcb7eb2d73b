import { groundMap, type MapRequest } from '#domain/ground/ground-map.ts'

/** One thing to work out, and the number its answer carries. */
export interface DerivationMessage {
  readonly turn: number
  readonly request: MapRequest
}

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<DerivationMessage>) => void) | null
  postMessage(message: unknown): void
}

scope.onmessage = ({ data: { turn, request } }) => {
  try {
    scope.postMessage({ turn, outcome: groundMap(request) })
  } catch (cause) {
    scope.postMessage({ turn, failure: cause instanceof Error ? cause.message : String(cause) })
  }
}
