import { expect, test } from 'vitest'
import { proposeChanges } from '#domain/levels/level-change.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { judgeProposal } from '../../../api/levels/judge-proposal.ts'
import { tryLevels, type ValuesOf } from '../../../api/levels/try-levels.ts'
import { smallSite } from '../../contract/small-site.ts'
import { levelFor } from '../../support/level-for.ts'

const hour = 3_600_000
const begin = Date.UTC(2027, 4, 1)
const present = begin + 100 * hour
const series = 'PZ-1A/pore-pressure'
const model: SiteModel = {
  ...smallSite('small-quay'),
  triggerLevels: [levelFor({ id: 'old', series, value: 20, validFrom: begin })],
}
/** Rises from 0 to 50 and falls again, an hour a step. */
const pressure = Array.from({ length: 100 }, (_, at) => ({
  atEpochMs: begin + at * hour,
  receivedAtEpochMs: begin + at * hour,
  value: 50 - Math.abs(at - 50),
}))
const asked: string[] = []
const valuesOf: ValuesOf = async (request) => {
  asked.push(...request.series)
  for (const part of [pressure.slice(0, 40), pressure.slice(40)])
    request.onValues(new Map([[series, part.filter(({ atEpochMs }) => atEpochMs >= request.fromEpochMs)]]))
}
const changesOf = (value: number) => {
  const level = draftOf(levelFor({ id: 'new', series, value, validFrom: present }))
  const proposed = proposeChanges(model.triggerLevels, [{ kind: 'replace', id: 'old', level }])
  return proposed.ok ? proposed.value : []
}

test('what a level would have raised stands beside what the one before it did', async () => {
  const tried = await tryLevels({
    valuesOf,
    model,
    changes: changesOf(40),
    fromEpochMs: begin,
    presentEpochMs: present,
  })
  expect(asked).toEqual([series])
  expect(tried.proposed).toMatchObject([
    { level: 'new', raised: 1, fromEpochMs: begin, episodes: [{ crossedAtEpochMs: begin + 40 * hour }] },
  ])
  expect(tried.present).toMatchObject([
    {
      level: 'old',
      raised: 1,
      episodes: [{ crossedAtEpochMs: begin + 20 * hour, leftAtEpochMs: begin + 81 * hour }],
    },
  ])
})

test('a level that was reached within a month is not moved away, unless a design review says so', async () => {
  const changes = changesOf(40)
  const { episodes } = await tryLevels({
    valuesOf,
    model,
    changes,
    fromEpochMs: begin,
    presentEpochMs: present,
  })
  const codes = (reason: string, on = episodes) => {
    const judged = judgeProposal({
      model,
      series: [],
      changes,
      author: 'A',
      reason,
      episodes: on,
      presentEpochMs: present,
    })
    return judged.ok ? judged.value.map(({ level, code }) => [level, code]) : []
  }
  expect(codes('too many alerts')).toEqual([['new', 'raised-after-reached']])
  expect(codes('Design review 4')).toEqual([])
  expect(codes('too many alerts', new Map())).toEqual([])
})

test('a combination that would go on counting a level that ends is refused', () => {
  const combined: SiteModel = {
    ...model,
    triggerLevels: [
      levelFor({ id: 'old', series, value: 20, validFrom: begin }),
      levelFor({ id: 'other', series, level: 2, value: 30, validFrom: begin }),
      levelFor({ id: 'third', series, direction: 'below', value: -1, validFrom: begin }),
      levelFor({ id: 'both', series, watches: 'combination', against: 'old;other', value: 2 }),
      levelFor({
        id: 'any',
        series,
        level: 2,
        watches: 'combination',
        against: 'old;other;third',
        needed: 1,
        value: 1,
      }),
    ],
  }
  const judged = (...ids: string[]) => {
    const changes = proposeChanges(
      combined.triggerLevels,
      ids.map((id) => ({ kind: 'end', id, atEpochMs: present }) as const),
    )
    const remarks = judgeProposal({
      model: combined,
      series: [],
      changes: changes.ok ? changes.value : [],
      author: 'A',
      reason: 'no longer needed',
      episodes: new Map(),
      presentEpochMs: present,
    })
    return remarks.ok
      ? remarks.value.map(({ level, severity, code }) => [level, severity, code])
      : remarks.issues
  }
  expect(judged('old')).toEqual([
    ['both', 'fault', 'combination-left-behind'],
    ['any', 'warning', 'combination-left-behind'],
  ])
  expect(judged('old', 'both', 'any')).toEqual([])
  expect(judged('old', 'other', 'both', 'any', 'third')).toHaveLength(5)
  expect(judged('old', 'other', 'both', 'any', 'third')).toContainEqual(['old', 'warning', 'nothing-watches'])
})
