import type { Problem } from '#contract/problems.ts'
import { keptAtHeader } from '../service-worker/kept-names.ts'
import { isBeyondFrozen, notInFrozenSentence } from './frozen.ts'

/** The server answered that it will not; `problem` says what was wrong and what to do (RFC 9457). */
export class ServerRefused extends Error {
  readonly problem: Problem
  constructor(problem: Problem) {
    super(problem.detail)
    this.name = 'ServerRefused'
    this.problem = problem
  }
}

/** The server could not be reached at all. */
export class ServerUnreachable extends Error {
  constructor(path: string, cause: unknown) {
    super(`The server did not answer to ${path}. Check the network; what was already shown stays shown.`, {
      cause,
    })
    this.name = 'ServerUnreachable'
  }
}

/** It was not asked, because the page reads from a frozen set and the answer could hold what came later. */
export class NotInFrozen extends Error {
  constructor() {
    super(notInFrozenSentence)
    this.name = 'NotInFrozen'
  }
}

/** GET of a JSON document. The shape is the contract's; the server and this page are released together. */
export function askServer<T>(path: string, signal?: AbortSignal): Promise<T> {
  return exchange<T>(path, { headers: { accept: 'application/json' }, ...(signal && { signal }) })
}

/**
 * The same, given up after a length of time: a server that hangs has not answered. `fresh`: what this device kept
 * comes only where the network fails, not already where it is slow.
 */
export async function askServerWithin<T>(
  path: string,
  lengthMs: number,
  { signal, fresh = false }: { readonly signal?: AbortSignal; readonly fresh?: boolean } = {},
): Promise<T> {
  const end = new AbortController()
  const timer = setTimeout(() => end.abort(), lengthMs)
  const pass = () => end.abort()
  signal?.addEventListener('abort', pass)
  if (signal?.aborted) end.abort()
  try {
    const headers = { accept: 'application/json' }
    return await exchange<T>(path, { headers, signal: end.signal, ...(fresh && { cache: 'no-cache' }) })
  } catch (cause) {
    if (end.signal.aborted && !signal?.aborted) throw new ServerUnreachable(path, cause)
    throw cause
  } finally {
    clearTimeout(timer)
    signal?.removeEventListener('abort', pass)
  }
}

/** POST of raw bytes, or of nothing. */
export function tellServer<T>(path: string, body: Blob | null, signal?: AbortSignal): Promise<T> {
  return exchange<T>(path, {
    method: 'POST',
    body,
    headers: { accept: 'application/json', 'content-type': 'application/octet-stream' },
    ...(signal && { signal }),
  })
}

/** POST of a JSON document. */
export function sendServer<T>(path: string, content: unknown, signal?: AbortSignal): Promise<T> {
  return exchange<T>(path, {
    method: 'POST',
    body: JSON.stringify(content),
    headers: { accept: 'application/json', 'content-type': 'application/json' },
    ...(signal && { signal }),
  })
}

/** POST of a form with files; the browser sets its type, which says where the parts end. */
export function sendForm<T>(path: string, form: FormData, signal?: AbortSignal): Promise<T> {
  return exchange<T>(path, {
    method: 'POST',
    body: form,
    headers: { accept: 'application/json' },
    ...(signal && { signal }),
  })
}

/** A change; most are answered with nothing. */
export function changeServer<T = void>(
  method: 'PUT' | 'DELETE',
  path: string,
  content?: unknown,
): Promise<T> {
  return exchange<T>(path, {
    method,
    headers: { accept: 'application/json', 'content-type': 'application/json' },
    ...(content !== undefined && { body: JSON.stringify(content) }),
  })
}

const keptDocuments = new WeakMap<object, number>()

/** When this device kept a document that the server was asked for and did not give; null: the server gave it. */
export const keptAtEpochMs = (document: object): number | null => keptDocuments.get(document) ?? null

/** Whether the server wants to know who asks: the page asks for that by itself. */
export const isSignInNeeded = (cause: unknown): boolean =>
  cause instanceof ServerRefused && cause.problem.status === 401

/** Whether the password was right and a code is wanted besides. */
export const isCodeNeeded = (cause: unknown): boolean =>
  cause instanceof ServerRefused && cause.problem.type === '/problems/code-needed'

/** A sentence for a person from whatever went wrong. */
export function sentenceOf(cause: unknown): string {
  return cause instanceof Error ? cause.message : String(cause)
}

async function exchange<T>(path: string, request: RequestInit): Promise<T> {
  if (isBeyondFrozen(path)) throw new NotInFrozen()
  let answer: Response
  try {
    answer = await fetch(path, request)
  } catch (cause) {
    if (request.signal?.aborted) throw cause
    throw new ServerUnreachable(path, cause)
  }
  if (answer.status === 204) return undefined as T
  // A file that could not be taken answers 422 with its receipt, which says why: that is an answer.
  const isJson = answer.headers.get('content-type')?.startsWith('application/json') ?? false
  if (answer.ok || (answer.status === 422 && isJson)) {
    const document = (await answer.json()) as T
    const keptAt = answer.headers.get(keptAtHeader)
    if (keptAt !== null && typeof document === 'object' && document !== null)
      keptDocuments.set(document, Number(keptAt))
    return document
  }
  // Whoever keeps track of who is signed in looks again.
  if (answer.status === 401) dispatchEvent(new Event('sign-in-needed'))
  throw new ServerRefused(await readProblem(path, answer))
}

async function readProblem(path: string, answer: Response): Promise<Problem> {
  if (answer.headers.get('content-type')?.startsWith('application/problem+json')) {
    return (await answer.json()) as Problem
  }
  const detail = `The server answered ${answer.status} ${answer.statusText} to ${path}.`
  return { type: 'about:blank', title: 'No answer', status: answer.status, detail }
}
