import { expect, test, vi } from 'vitest'
import { groundMapSteps, type MapRequest } from '#domain/ground/ground-map.ts'
import { openDerivation } from '../../../web/derived/open-derivation.ts'
import {
  type DerivationAnswer,
  type DerivationMessage,
  runDerivations,
} from '../../../web/derived/run-derivations.ts'
import { finishSteps } from '../../support/finish-steps.ts'

/** A worker that answers when it is told to. */
function made() {
  const listeners = new Map<string, (event: unknown) => void>()
  const asked: { turn: number; task: { request: MapRequest } }[] = []
  let ended = 0
  return {
    asked,
    ended: () => ended,
    answer: (place: number) => {
      const { turn, task } = asked[place] as (typeof asked)[0]
      listeners.get('message')?.({ data: { turn, outcome: finishSteps(groundMapSteps(task.request)) } })
    },
    fail: () => listeners.get('error')?.({ message: 'no memory left' }),
    worker: {
      postMessage: (message: unknown) => void asked.push(message as (typeof asked)[0]),
      terminate: () => {
        ended += 1
      },
      addEventListener: (name: string, listener: unknown) =>
        void listeners.set(name, listener as (event: unknown) => void),
    } as unknown as Worker,
  }
}

const corner = (id: string, eastingMetres: number, northingMetres: number, value: number) => ({
  id,
  eastingMetres,
  northingMetres,
  value,
  standardUncertainty: 0.7,
  late: false,
})
const bowl = (deepest: number) => ({
  points: [
    corner('a', 0, 0, 0),
    corner('b', 10, 0, 0),
    corner('c', 10, 10, 0),
    corner('d', 0, 10, 0),
    corner('e', 5, 5, deepest),
  ],
  unit: 'mm',
  method: 'linear' as const,
  barriers: [],
  longestSideMetres: 50,
  silentRadiusMetres: 0,
  nodes: 20,
  aspect: 'values' as const,
  ofHeads: false,
  at: [],
  sectionLine: [],
})

test('the answer carries the contours of its own request', async () => {
  const one = made()
  const derivation = openDerivation(() => one.worker)
  const asked = derivation.surface(bowl(10))
  one.answer(0)
  const outcome = await asked
  expect(outcome.ok && outcome.value.levelsMm.at(-1)).toBeLessThan(10)
  expect(outcome.ok && outcome.value.lines.length).toBeGreaterThan(0)
})

test('a later request rejects the earlier, whose answer is then not heard', async () => {
  const one = made()
  const derivation = openDerivation(() => one.worker)
  const first = derivation.surface(bowl(4))
  const second = derivation.surface(bowl(20))
  await expect(first).rejects.toMatchObject({ name: 'AbortError' })
  one.answer(0)
  one.answer(1)
  const outcome = await second
  expect(outcome.ok && outcome.value.levelsMm.at(-1)).toBeGreaterThan(4)
})

test('a stopped task rejects at once, its worker is told and lives on', async () => {
  const one = made()
  const derivation = openDerivation(() => one.worker)
  const stop = new AbortController()
  const slow = derivation.surface(bowl(4), { signal: stop.signal })
  stop.abort()
  await expect(slow).rejects.toMatchObject({ name: 'AbortError' })
  expect(one.asked[1]).toEqual({ turn: 2, task: null })
  const next = derivation.surface(bowl(4))
  one.answer(2)
  expect((await next).ok).toBe(true)
  expect(one.ended()).toBe(0)
})

test('a worker that hangs in one step is ended, and the request goes to a new one', async () => {
  vi.useFakeTimers()
  const [one, other] = [made(), made()]
  const workers = [one, other]
  const derivation = openDerivation(() => (workers.shift() as ReturnType<typeof made>).worker)
  const hung = derivation.surface(bowl(4))
  const next = derivation.surface(bowl(20))
  await expect(hung).rejects.toMatchObject({ name: 'AbortError' })
  vi.advanceTimersByTime(3000)
  vi.useRealTimers()
  expect(one.ended()).toBe(1)
  other.answer(0)
  expect((await next).ok).toBe(true)
})

/** The worker's own loop, in this thread; every look at its clock is 60 ms later, so that it pauses after each step. */
function inThisThread() {
  const told: DerivationAnswer[] = []
  const listeners: ((event: { data: DerivationAnswer }) => void)[] = []
  let ms = 0
  const run = runDerivations({
    tell(answer) {
      told.push(answer)
      for (const listener of listeners) listener({ data: answer })
    },
    pause: () => new Promise((resolve) => setTimeout(resolve, 0)),
    nowMs: () => {
      ms += 60
      return ms
    },
  })
  const worker = {
    postMessage: (message: DerivationMessage) => void run(message),
    terminate: () => {
      throw new Error('ended')
    },
    addEventListener: (name: string, listener: unknown) => {
      if (name === 'message') listeners.push(listener as (typeof listeners)[0])
    },
  } as unknown as Worker
  return { told, worker }
}

test('a superseded request stops between two steps, and its answer never shows', async () => {
  const { told, worker } = inThisThread()
  const derivation = openDerivation(() => worker)
  const progress: number[] = []
  const far = bowl(4).points.map((point) => ({ ...point, eastingMetres: point.eastingMetres + 1000 }))
  const slow = { ...bowl(4), points: far, method: 'natural-neighbours' as const, nodes: 200 }
  const whole = await derivation.surface(slow, { progress: (share) => progress.push(share) })
  expect(whole.ok ? [] : whole.issues).toEqual([])
  expect(progress.length).toBeGreaterThan(150)
  expect(progress.toSorted((a, b) => a - b)).toEqual(progress)
  const first = derivation.surface(slow)
  await new Promise((resolve) => setTimeout(resolve, 20))
  const second = derivation.surface(bowl(20))
  await expect(first).rejects.toMatchObject({ name: 'AbortError' })
  const outcome = await second
  expect(outcome.ok && outcome.value.levelsMm.at(-1)).toBeGreaterThan(4)
  await new Promise((resolve) => setTimeout(resolve, 50))
  const ofFirst = told.filter(({ turn }) => turn === 2)
  expect(ofFirst.some((answer) => answer.outcome)).toBe(false)
  expect(ofFirst.length).toBeGreaterThan(0)
  expect(ofFirst.length).toBeLessThan(progress.length / 2)
})

test('a worker that dies says so and the next request has a new one', async () => {
  const [one, other] = [made(), made()]
  const workers = [one, other]
  const derivation = openDerivation(() => (workers.shift() as ReturnType<typeof made>).worker)
  const lost = derivation.surface(bowl(4))
  one.fail()
  await expect(lost).rejects.toMatchObject({ code: 'derivation-failed', message: 'no memory left' })
  const next = derivation.surface(bowl(4))
  other.answer(0)
  expect((await next).ok).toBe(true)
})

test('a fit of drawdowns is asked of the worker by its own name', () => {
  const one = made()
  const derivation = openDerivation(() => one.worker)
  derivation.drawdown([{ transmissivity: 100, storativity: 1e-4 }, [], null, []]).catch(() => {})
  expect(one.asked[0]).toMatchObject({
    turn: 1,
    task: { drawdown: [{ transmissivity: 100 }, [], null, []] },
  })
  derivation.close()
})
