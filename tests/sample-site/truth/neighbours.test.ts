import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Agreement, agreementsOf } from '#domain/review/agreement.ts'
import { judgeSeries, patchEvidence } from '#domain/review/patch-evidence.ts'
import { patchMovement } from '#domain/review/patch-movement.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { openReviewSample, type ReviewSample } from '../../support/review-sample.ts'

/** Neighbours of what was planted, as `truth/anomalies.csv` and `truth/decoys.csv` tell what they truly did. */
describe('neighbours in the sample', () => {
  let sample: ReviewSample
  beforeAll(async () => {
    sample = await openReviewSample()
  }, 240_000)
  afterAll(() => sample?.close())
  const around = async (series: string, day: string, days: number) => {
    const found = agreementsOf(await sample.caseAt(series, day, days))
    return (id: string): Agreement | undefined => found.find(({ neighbour }) => neighbour.series === id)
  }

  test('A2: the bowl at SP-31 moves its kerb line, a crack, a tilt meter and the clay pressure with it', async () => {
    const of = await around('SP-31/settlement', '2027-08-20', 120)
    for (const id of ['SP-32/settlement', 'TL-07/tilt', 'CR-05/opening'])
      expect(`${id} ${of(id)?.kind}`).toBe(`${id} moves-with`)
    expect(of('SP-32/settlement')?.change?.size).toBeGreaterThan(of('SP-30/settlement')?.change?.size ?? 0)
  })

  test('A1: nothing beside PZ-05C shows its drift once the drawdown of the spring is past', async () => {
    const of = await around('PZ-05C/pore-pressure', '2027-09-10', 60)
    const same = ['PZ-06C', 'PZ-01C', 'PZ-02C'].flatMap((point) => of(`${point}/pore-pressure`) ?? [])
    expect(same.length).toBeGreaterThan(0)
    for (const one of same)
      expect(`${one.neighbour.point} ${one.kind}`).toMatch(/ (still|moves-otherwise|both-still)$/)
  })

  test('D6: SP-39 and SP-41 stand still while SP-40 is bent down', async () => {
    const of = await around('SP-40/settlement', '2027-10-20', 120)
    for (const id of ['SP-39/settlement', 'SP-41/settlement'])
      expect(`${id} ${of(id)?.kind}`).toMatch(/ (still|cannot-say)$/)
    expect(of('SP-39/settlement')?.sentence).not.toContain('changed with it')
  })

  test('A4: no settlement and no tilt beside TL-11 moves with it', async () => {
    const reviewed = await sample.caseAt('TL-11/tilt', '2027-07-20', 60)
    const kinds = agreementsOf(reviewed).filter(({ neighbour }) =>
      ['tilt', 'settlement'].includes(neighbour.measure),
    )
    expect(kinds.length).toBeGreaterThan(0)
    expect(kinds.filter(({ kind }) => kind === 'moves-with')).toEqual([])
  })

  test('a patch finds of each series what its own review finds, line by line', async () => {
    const { cases } = await sample.patchAt('SP-31', 25, 'settlement', '2027-08-20', 60)
    let lines = 0
    for (const one of cases) {
      // The cells are no part of what this sample puts together by itself.
      const ofPatch = { ...one, logger: one.logger && { ...one.logger, battery: null } }
      const alone = await sample.caseAt(one.subject.series, '2027-08-20', 60)
      const [table, own] = [weighCase(ofPatch, 'value'), weighCase(alone, 'value')]
      expect(table).toEqual(own)
      lines += own.ranked.flatMap(({ evidence }) => evidence).length
    }
    expect(lines).toBeGreaterThan(60)
  })

  test('a patch along the kerb counts the bowl for the ground and keeps it real', async () => {
    const ids = ['SP-28', 'SP-29', 'SP-30', 'SP-31', 'SP-32', 'SP-33', 'SP-34', 'SP-35'].map(
      (point) => `${point}/settlement`,
    )
    const cases = await Promise.all(ids.map((id) => sample.caseAt(id, '2027-08-20', 120)))
    const [first] = cases
    if (!first) throw new Error('no case')
    const evidence = patchEvidence(cases.map(judgeSeries))
    const movement = patchMovement(
      cases.map(({ subject }) => subject),
      first.fromEpochMs,
      first.untilEpochMs,
    )
    expect(evidence.causes[0]?.cause).toBe('ground')
    expect(evidence.causes[0]?.leads.map(({ point }) => point)).toContain('SP-31')
    expect(evidence.sentence).toContain('as real until shown otherwise')
    const left = (point: string) =>
      movement?.members.find(({ trace }) => trace.point === point)?.residual?.change ?? Number.NaN
    // What it did beside all others is the bowl: 13.2 mm in truth, less what the median of eight takes from it.
    expect(left('SP-31')).toBeGreaterThan(8)
    expect(left('SP-31')).toBeLessThan(15)
    expect(
      Math.max(...ids.filter((id) => !id.startsWith('SP-31')).map((id) => left(id.split('/')[0] as string))),
    ).toBeLessThan(left('SP-31') / 2)
  })
})
