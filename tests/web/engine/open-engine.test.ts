import { expect, test } from 'vitest'
import { columnsOf } from '../../../web/engine/columns.ts'
import type { EngineProgress, Session } from '../../../web/engine/engine.ts'
import { openEngine, type StartSession } from '../../../web/engine/open-engine.ts'

/** A session that writes down what it is asked and answers with the memory it is said to hold. */
function scripted(memoryBytes = 0) {
  const asked: string[] = []
  const crash: ((cause: unknown) => void)[] = []
  let starts = 0
  let closed = 0
  const startSession: StartSession = async (onFetched, onCrash) => {
    starts += 1
    crash.push(onCrash)
    onFetched(5, 10)
    onFetched(10, 10)
    const session: Session = {
      run: async (sql) => {
        asked.push(sql)
        if (sql === 'never') return new Promise(() => undefined)
        if (sql === 'fails') throw new Error('Binder Error')
        return columnsOf(1, { bytes: Float64Array.of(memoryBytes) })
      },
      registerBytes: async (name) => void asked.push(`bytes ${name}`),
      registerUrl: async (name, url) => void asked.push(`url ${name} ${url}`),
      forgetFile: async (name) => void asked.push(`forget ${name}`),
      close: async () => {
        closed += 1
      },
    }
    return session
  }
  return { asked, crash, startSession, starts: () => starts, closed: () => closed }
}

test('nothing is started before the first question', async () => {
  const session = scripted()
  const stages: EngineProgress[] = []
  const engine = openEngine({
    startSession: session.startSession,
    onProgress: (progress) => stages.push(progress),
  })
  expect(session.starts()).toBe(0)
  expect(engine.progress().stage).toBe('waiting')
  await Promise.all([engine.run('select 1'), engine.start(), engine.run('select 2')])
  expect(session.starts()).toBe(1)
  expect(stages.map((progress) => progress.stage)).toEqual(['fetching', 'fetching', 'starting', 'ready'])
  expect(stages[1]?.sentence).toBe('Fetching the analysis engine (50 %).')
})

test('a question overtaken while it waits is never asked', async () => {
  const session = scripted()
  const engine = openEngine({ startSession: session.startSession })
  const overtaken = new AbortController()
  const first = engine.run('first')
  const second = engine.run('second', overtaken.signal)
  const third = engine.run('third')
  overtaken.abort()
  await expect(second).rejects.toThrow(/abort/i)
  await Promise.all([first, third])
  expect(session.asked).not.toContain('second')
  expect(session.asked).toContain('third')
})

test('a failed question does not stop the next', async () => {
  const session = scripted()
  const engine = openEngine({ startSession: session.startSession })
  await expect(engine.run('fails')).rejects.toMatchObject({ code: 'query-failed', sql: 'fails' })
  expect((await engine.run('select 1')).rows).toBe(1)
})

test('above the memory limit the worker is ended between questions and started for the next', async () => {
  const session = scripted(900)
  const engine = openEngine({ startSession: session.startSession, memoryLimitBytes: 800 })
  await engine.run('select 1')
  expect(session.closed()).toBe(1)
  await engine.run('select 2')
  expect(engine.generation()).toBe(2)
})

test('a worker that dies fails its question in words and starts again at the next', async () => {
  const session = scripted()
  const engine = openEngine({ startSession: session.startSession })
  const lost = engine.run('never')
  await engine.start()
  await new Promise((resolve) => setTimeout(resolve, 10))
  session.crash[0]?.(new Error('out of memory'))
  await expect(lost).rejects.toThrow('out of memory')
  expect(engine.progress().stage).toBe('failed')
  expect((await engine.run('select 1')).rows).toBe(1)
  expect(engine.generation()).toBe(2)
})

test('an engine that cannot start says why and may be tried again', async () => {
  let refusals = 1
  const session = scripted()
  const engine = openEngine({
    startSession: (...callbacks) =>
      refusals-- > 0
        ? Promise.reject(new Error('the file did not come'))
        : session.startSession(...callbacks),
  })
  await expect(engine.run('select 1')).rejects.toThrow('the file did not come')
  expect(engine.progress().sentence).toContain('the file did not come')
  expect((await engine.run('select 1')).rows).toBe(1)
})
