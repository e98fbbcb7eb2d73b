import { groundSurface, type SurfaceRequest } from '#domain/ground/ground-surface.ts'

/** One thing to work out, and the number its answer carries. */
export interface DerivationMessage {
  readonly turn: number
  readonly request: SurfaceRequest
}

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<DerivationMessage>) => void) | null
  postMessage(message: unknown): void
}

scope.onmessage = ({ data: { turn, request } }) => {
  try {
    scope.postMessage({ turn, outcome: groundSurface(request) })
  } catch (cause) {
    scope.postMessage({ turn, failure: cause instanceof Error ? cause.message : String(cause) })
  }
}
