import { expect, test } from 'vitest'
import { groundMap, type MapRequest } from '#domain/ground/ground-map.ts'
import { plainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import { openDerivation } from '../../../web/derived/open-derivation.ts'

/** A worker that answers when it is told to. */
function made() {
  const listeners = new Map<string, (event: unknown) => void>()
  const asked: { turn: number; request: MapRequest }[] = []
  let ended = 0
  return {
    asked,
    ended: () => ended,
    answer: (place: number) => {
      const { turn, request } = asked[place] as (typeof asked)[0]
      listeners.get('message')?.({ data: { turn, outcome: groundMap(request) } })
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

test('a task that has run long is ended with its worker when its signal is aborted', async () => {
  const [one, other] = [made(), made()]
  const workers = [one, other]
  const derivation = openDerivation(() => (workers.shift() as ReturnType<typeof made>).worker)
  const stop = new AbortController()
  const slow = derivation.surface(bowl(4), stop.signal)
  await new Promise((resolve) => setTimeout(resolve, 60))
  stop.abort()
  await expect(slow).rejects.toMatchObject({ name: 'AbortError' })
  expect(one.ended()).toBe(1)
  const next = derivation.surface(bowl(4))
  other.answer(0)
  expect((await next).ok).toBe(true)
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

test('what a fit of drawdowns answers can be handed from a worker', () => {
  const well = {
    id: 'W',
    eastingMetres: 0,
    northingMetres: 0,
    radiusMetres: 0.3,
    rates: [{ from: 0, ratePerTime: 900 }],
  }
  const measured = [1, 2, 4, 8, 16].map((time) => ({
    id: 'P',
    eastingMetres: 20,
    northingMetres: 0,
    time,
    drawdownMetres: 1 + 0.3 * Math.log(time),
    late: false,
    standardUncertaintyMetres: null,
  }))
  const fit = plainDrawdownFit({ transmissivity: 100, storativity: 1e-4 }, [well], null, measured)
  expect(fit.ok).toBe(true)
  expect(structuredClone(fit)).toEqual(fit)
})

test('a fit of drawdowns is asked of the worker by its own name', () => {
  const one = made()
  const derivation = openDerivation(() => one.worker)
  derivation.drawdown([{ transmissivity: 100, storativity: 1e-4 }, [], null, []]).catch(() => {})
  expect(one.asked[0]).toMatchObject({ turn: 1, drawdown: [{ transmissivity: 100 }, [], null, []] })
  derivation.close()
})
