import { describe, expect, it } from 'vitest'
import { studyNetwork } from '#domain/radio/network-study.ts'
import type { RadioSite } from '#domain/radio/radio-site.ts'
import { usualTerms } from '#domain/radio/receiver-sensitivity.ts'
import type { CoverageTestRow } from '#domain/site/tables.ts'
import { accepted } from '../../published/accepted.ts'

const gateway = { id: 'GW', eastingMetres: 0, northingMetres: 0, levelMetres: 10 }
const far = { ...gateway, id: 'FAR', eastingMetres: 400 }
const row = (test: string, east: number, signalDbm: number | null, more: Partial<CoverageTestRow> = {}) => ({
  test,
  at: 1000,
  eastingMetres: east,
  northingMetres: 0,
  accuracyMetres: 2,
  mode: 'with-internet' as const,
  logger: null,
  spreadingFactor: 12,
  sent: 10,
  received: signalDbm === null ? 0 : 10,
  signalDbm,
  author: 'Technician',
  gateway: 'GW',
  ...more,
})
const exact = (metres: number) => -50 - 30 * Math.log10(Math.hypot(metres, 9) / 10)
const logger = { id: 'LG', eastingMetres: 100, northingMetres: 0, levelMetres: 1 }
const siteWith = (ofLogger: CoverageTestRow): RadioSite => ({
  gateways: [gateway, far],
  loggers: [logger],
  tests: [
    ...[20, 40, 60, 80, 120, 160].map((east, place) =>
      row(`T-${place}`, east, exact(east) + (place % 2 === 0 ? 1 : -1)),
    ),
    ofLogger,
  ],
  stages: [{ name: 'Digging', startsAt: 5000 }],
  obstructions: [],
  ground: { places: [], pits: [] },
  terms: usualTerms,
  carriedHeightMetres: 1,
})
const studyOf = (ofLogger: CoverageTestRow, atEpochMs = 2000) =>
  accepted(
    studyNetwork({
      site: siteWith(ofLogger),
      atEpochMs,
      wantedShare: 0.9,
      planned: { obstruction: null, gateway: null },
      grid: null,
      checked: false,
    }),
  ).loggers[0]

describe('links of a logger', () => {
  it('carry on what its own last test measured, where nothing changed', () => {
    const found = studyOf(row('T-L', 100, -110, { logger: 'LG' }))
    expect(found?.links[0]).toMatchObject({ gateway: 'GW', carriedFrom: 'T-L' })
    expect(found?.links[0]?.signal.signalDbm).toBeCloseTo(-110, 6)
    expect(found?.links[0]?.signal.spreadDb).toBe(3)
  })

  it('give no other gateway a stronger signal than that', () => {
    const [, other] = studyOf(row('T-L', 100, -110, { logger: 'LG' }))?.links ?? []
    expect(other?.gateway).toBe('FAR')
    expect(other?.signal.signalDbm).toBeLessThan(-110)
  })

  it('never go back to an older signal once nothing came through', () => {
    const silent = siteWith(row('T-L', 100, -80, { logger: 'LG' }))
    const site = { ...silent, tests: [...silent.tests, row('T-M', 100, null, { logger: 'LG', at: 1500 })] }
    const found = accepted(
      studyNetwork({
        site,
        atEpochMs: 2000,
        wantedShare: 0.9,
        planned: { obstruction: null, gateway: null },
        grid: null,
        checked: false,
      }),
    ).loggers[0]
    expect(found?.proof.state).toBe('not-accepted')
    expect(found?.links[0]?.signal.signalDbm).toBeLessThan(-130)
  })

  it('are not proven by half of ten packets, though the rule accepts them', () => {
    const test = row('T-L', 100, -130, { logger: 'LG', received: 5 })
    expect(studyOf(test)?.proof).toMatchObject({
      state: 'not-settled',
      verdict: { verdict: 'accepted', certainOfHalf: false },
    })
  })

  it('are proven until a stage begins', () => {
    const test = row('T-L', 100, -90, { logger: 'LG' })
    expect(studyOf(test)?.proof.state).toBe('proven')
    expect(studyOf(test, 6000)?.proof).toMatchObject({
      state: 'to-be-proved-again',
      reasons: ['Since then began: Digging.'],
    })
  })
})
