import type { Columns } from './columns.ts'
import type { Engine, EngineProgress, Session } from './engine.ts'
import { QueryFailed } from './query-failed.ts'

export type StartSession = (
  onFetched: (loaded: number, total: number) => void,
  onCrash: (cause: unknown) => void,
) => Promise<Session>

export interface EngineOptions {
  /** Above this the engine is restarted between queries. WebAssembly memory only grows. */
  readonly memoryLimitBytes?: number
  readonly onProgress?: (progress: EngineProgress) => void
  /** How to start a session; the browser's DuckDB worker unless a test says otherwise. */
  readonly startSession?: StartSession
}

/** Half of what a page may hold on a tablet with 3 GB, the map beside it. */
export const defaultMemoryLimitBytes = 600e6

/**
 * Gives an engine at once and starts nothing: DuckDB is fetched at the first `start` or question, so that
 * it never stands in the way of the first colours.
 */
export function openEngine(options: EngineOptions = {}): Engine {
  const limitBytes = options.memoryLimitBytes ?? defaultMemoryLimitBytes
  const startSession =
    options.startSession ??
    (async (...callbacks: Parameters<StartSession>) =>
      (await import('./start-duckdb.ts')).startDuckdb(...callbacks))

  let session: Promise<Session> | undefined
  let generation = 0
  let highestBytes = 0
  let memoryReadAtMs = Number.NEGATIVE_INFINITY
  let queue: Promise<unknown> = Promise.resolve()
  let rejectCurrent: ((cause: unknown) => void) | undefined
  let progress: EngineProgress = {
    stage: 'waiting',
    share: null,
    sentence: 'Analysis engine not started yet.',
  }
  const bufferBytes = new Map<string, number>()

  const tell = (next: EngineProgress) => {
    // A fetch reports every few kilobytes; a person reads every twentieth part.
    if (next.stage === progress.stage && next.sentence === progress.sentence) return
    progress = next
    options.onProgress?.(next)
  }

  const forgetSession = async () => {
    const old = session
    session = undefined
    bufferBytes.clear()
    highestBytes = 0
    if (old) await old.then((running) => running.close()).catch(() => undefined)
  }

  const running = (): Promise<Session> => {
    if (session) return session
    generation += 1
    const mine = generation
    const isRestart = mine > 1
    tell({ stage: isRestart ? 'restarting' : 'fetching', share: 0, sentence: fetchingSentence(0, isRestart) })
    const started = startSession(
      (loaded, total) => {
        const share = total > 0 ? Math.min(1, loaded / total) : null
        if (share === 1)
          tell({ stage: 'starting', share: null, sentence: 'Analysis engine fetched, starting it.' })
        else
          tell({
            stage: isRestart ? 'restarting' : 'fetching',
            share,
            sentence: fetchingSentence(share, isRestart),
          })
      },
      (cause) => {
        if (mine !== generation) return
        rejectCurrent?.(cause)
        void forgetSession()
        tell({
          stage: 'failed',
          share: null,
          sentence: 'The analysis engine stopped. It starts again at the next question.',
        })
      },
    ).then(
      (ready) => {
        tell({ stage: 'ready', share: null, sentence: 'Analysis engine ready.' })
        return ready
      },
      (cause) => {
        if (session === started) session = undefined
        tell({
          stage: 'failed',
          share: null,
          sentence: `The analysis engine could not start: ${sentenceOf(cause)}. The last states on the map still stand.`,
        })
        throw cause
      },
    )
    session = started
    return started
  }

  /** One thing at a time in the worker; a failure of one does not stop the next. */
  const inTurn = <T>(task: () => Promise<T>): Promise<T> => {
    const turn = queue.then(task, task)
    queue = turn.catch(() => undefined)
    return turn
  }

  const untilCrash = <T>(work: Promise<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      rejectCurrent = reject
      work.then(resolve, reject)
    })

  const watchMemory = async (current: Session) => {
    if (performance.now() - memoryReadAtMs < 2000) return
    memoryReadAtMs = performance.now()
    const answer = await current.run('select sum(memory_usage_bytes)::double as bytes from duckdb_memory()')
    let bytes = answer.number('bytes')[0] ?? 0
    for (const held of bufferBytes.values()) bytes += held
    highestBytes = Math.max(highestBytes, bytes)
    if (highestBytes > limitBytes) await forgetSession()
  }

  return {
    generation: () => generation,
    progress: () => progress,
    start: async () => {
      await running()
    },
    run: (sql, signal) =>
      inTurn(async (): Promise<Columns> => {
        signal?.throwIfAborted()
        const current = await running()
        signal?.throwIfAborted()
        let answer: Columns
        try {
          answer = await untilCrash(current.run(sql))
        } catch (cause) {
          throw new QueryFailed({ sql, cause })
        }
        await watchMemory(current)
        signal?.throwIfAborted()
        return answer
      }),
    attachBytes: (alias, bytes) =>
      inTurn(async () => {
        const current = await running()
        bufferBytes.set(alias, bytes.byteLength)
        await current.registerBytes(fileName(alias), bytes)
        await attach(current, alias)
      }),
    attachUrl: (alias, url) =>
      inTurn(async () => {
        const current = await running()
        await current.registerUrl(fileName(alias), url)
        await attach(current, alias)
      }),
    detach: (alias) =>
      inTurn(async () => {
        if (!session) return
        const current = await session
        const sql = `detach database if exists "${alias}"`
        await current.run(sql).catch((cause) => {
          throw new QueryFailed({ sql, cause })
        })
        bufferBytes.delete(alias)
        await current.forgetFile(fileName(alias))
      }),
    memoryBytes: () => highestBytes,
    restart: (reason) =>
      inTurn(async () => {
        await forgetSession()
        tell({ stage: 'restarting', share: null, sentence: `Restarting the analysis engine: ${reason}` })
        await running()
      }),
    close: () =>
      inTurn(async () => {
        await forgetSession()
        tell({ stage: 'waiting', share: null, sentence: 'Analysis engine not started.' })
      }),
  }
}

const fileName = (alias: string) => `${alias}.duckdb`

async function attach(session: Session, alias: string): Promise<void> {
  const sql = `attach '${fileName(alias)}' as "${alias}" (read_only)`
  try {
    await session.run(sql)
  } catch (cause) {
    throw new QueryFailed({ sql, cause })
  }
}

function fetchingSentence(share: number | null, isRestart: boolean): string {
  const part = share === null ? '' : ` (${Math.round(share * 20) * 5} %)`
  return isRestart ? `Restarting the analysis engine${part}.` : `Fetching the analysis engine${part}.`
}

const sentenceOf = (cause: unknown) =>
  (cause instanceof Error ? cause.message : String(cause)).replace(/\.$/, '')
