import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SiteModel } from '#domain/site/site.ts'
import { readRecipe } from '../../../api/slices/recipe.ts'
import type { Store } from '../../../api/store/store.ts'
import { levelFor } from '../../support/level-for.ts'
import { type OpenWatched, openWatched } from '../../support/open-watched.ts'
import { watchedFrom, watchedRow, watchedSite } from '../../support/watched-site.ts'

const minute = 60_000
const hour = 60 * minute

let opened: OpenWatched
beforeAll(async () => {
  opened = await openWatched(() => watchedFrom + 12 * hour)
})
afterAll(() => opened.close())

it('evaluates all others where the values of one series cannot be made, and says which', async () => {
  let spoilt = 0
  const store: Store = {
    ...opened.store,
    async connect() {
      const connection = await opened.store.connect()
      return new Proxy(connection, {
        get(of, name) {
          const found = Reflect.get(of, name)
          if (typeof found !== 'function') return found
          return (...given: unknown[]) => {
            const asked = /where series in \(select unnest\(\[([\d, ]+)\]/.exec(String(given[0]))?.[1]
            if (asked?.split(', ').map(Number).includes(spoilt)) throw new Error('out of range')
            return found.apply(of, given)
          }
        },
      })
    },
  }
  const at = { value: 5, validFrom: watchedFrom }
  const watched = await opened.watch(
    {
      ...watchedSite(),
      triggerLevels: [
        levelFor({ ...at, id: 'mark', series: 'SP-1/settlement' }),
        levelFor({ ...at, id: 'strut', series: 'ST-1-1/force' }),
        levelFor({ ...at, id: 'air', series: 'BA-1/barometric-pressure' }),
      ],
    },
    { store },
  )
  const model = (await opened.store.getSite(watched.site)) as SiteModel
  const { numberOf } = await readRecipe(opened.store, watched.site, model)
  spoilt = numberOf.get('ST-1-1/force') as number
  const raised = async () => (await watched.alerts()).map(({ episode }) => episode?.level).toSorted()
  await watched.take([watchedRow(1, { 'LG-02/2': 7, 'LG-01/3': 7, 'LG-01/1': 1 })])
  await watched.evaluate()
  expect(await raised()).toEqual(['mark'])
  await watched.take([watchedRow(2, { 'LG-01/1': 100, 'LG-01/3': 7 })])
  await watched.evaluate()
  expect(await raised()).toEqual(['air', 'mark'])
  expect((await watched.evaluator().standing(watched.site)).evaluation.failure).toBe('strut: out of range')
  // Put right, and what came meanwhile is raised at the next start at the latest.
  spoilt = 0
  await watched.restart('closed')
  await watched.evaluate()
  expect(await raised()).toEqual(['air', 'mark', 'strut'])
})

it('says so where a run never ends', async () => {
  let now = watchedFrom
  let hangs = false
  const store: Store = {
    ...opened.store,
    arrivedSince: (...given) => (hangs ? new Promise(() => undefined) : opened.store.arrivedSince(...given)),
  }
  const watched = await opened.watch(watchedSite(), { store, now: () => now })
  await watched.evaluate()
  hangs = true
  now += 31_000
  void watched.evaluator().tick()
  const failure = async () => (await watched.evaluator().standing(watched.site)).evaluation.failure
  expect(await failure()).toBeNull()
  now += 10 * minute
  expect(await failure()).toMatch(/No evaluation has come to its end/)
})

describe('a run that fails', () => {
  it('is shown, tried again, and raises nothing twice', async () => {
    let refusals = 1
    const failing: Store = {
      ...opened.store,
      appendAlertEvents: async (...given) => {
        if (refusals-- > 0) throw new Error('the disk is full')
        return opened.store.appendAlertEvents(...given)
      },
    }
    const watched = await opened.watch(watchedSite(), { store: failing })
    await watched.take([watchedRow(0, { 'LG-01/1': 100, 'LG-01/2': 7 })])
    await watched.evaluate()
    expect(watched.failures).toEqual(['Error: the disk is full'])
    expect((await watched.evaluator().standing(watched.site)).evaluation).toMatchObject({
      behind: true,
      failure: 'Levels are not evaluated: the disk is full',
    })
    await watched.restart('killed')
    await watched.evaluate()
    expect((await watched.alerts()).map(({ episode }) => episode?.level)).toContain('PZ 1')
    expect((await watched.evaluator().standing(watched.site)).evaluation).toMatchObject({
      behind: false,
      failure: null,
    })
  })

  it('of one level leaves the others evaluated, and says which', async () => {
    const lost = levelFor({ id: 'lost', series: 'XX-1/settlement' })
    const watched = await opened.watch({
      ...watchedSite(),
      triggerLevels: [...watchedSite().triggerLevels, lost],
    })
    await watched.take([watchedRow(0, { 'LG-01/1': 100, 'LG-01/2': 7 })])
    await watched.evaluate()
    expect((await watched.alerts()).map(({ episode }) => episode?.level)).toContain('PZ 1')
    expect((await watched.evaluator().standing(watched.site)).evaluation.failure).toMatch(/^lost: /)
  })
})
