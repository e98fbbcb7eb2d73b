import { describe, expect, it } from 'vitest'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { studyNetwork } from '#domain/radio/network-study.ts'
import { deliveredShare, pathLossDb } from '../../sample-site/models/radio.ts'
import { radioSiteOf } from '../../web/derived/radio/radio-site-of.ts'
import { accepted } from '../published/accepted.ts'
import { readSampleSite } from './read-sample-site.ts'

const model = readSampleSite()
const grid = accepted(openGridOfSite(model.facts, model.controlPoints))
const site = radioSiteOf(model, grid)
const study = (at: string, planned: Parameters<typeof studyNetwork>[0]['planned'] = nothing) =>
  accepted(
    studyNetwork({ site, atEpochMs: Date.parse(at), wantedShare: 0.9, planned, grid: null, checked: false }),
  )
const nothing = { obstruction: null, gateway: null }
const shareOf = (found: ReturnType<typeof study>, logger: string, which: 'links' | 'planned' = 'links') =>
  found.loggers.find((one) => one.logger.id === logger)?.[which]?.[0]?.deliveries.at(-1)?.share ?? Number.NaN

describe('radio network of the sample', () => {
  const may = study('2027-08-01T00:00:00Z')

  it('finds from its tests how signals were made to fall off', () => {
    const { shared } = may.model.fit
    const made = { exponent: (pathLossDb(100) - pathLossDb(10)) / 10, at10Metres: 14 - pathLossDb(10) - 4 }
    expect(Math.abs(shared.exponent - made.exponent)).toBeLessThan(2 * shared.standardErrors.exponent)
    expect(Math.abs(shared.signalAt10MetresDbm - made.at10Metres)).toBeLessThan(
      2 * shared.standardErrors.signalAt10MetresDb,
    )
  })

  it('finds how delivery grows with the margin', () => {
    const { halfAtDb, widthDb, partlyDelivered } = may.model.curve
    expect(partlyDelivered).toBeGreaterThan(10)
    expect(halfAtDb).toBeCloseTo(0, 0)
    expect(widthDb).toBeGreaterThan(4.5)
    expect(widthDb).toBeLessThan(7.5)
    expect(deliveredShare(-137)).toBeCloseTo(0.5, 2)
  })

  it('says that a link proven before the works changed is to be proved again', () => {
    const state = (at: string, logger: string) =>
      study(at).loggers.find((one) => one.logger.id === logger)?.proof
    expect(state('2027-01-22T00:00:00Z', 'LG-01')?.state).toBe('proven')
    expect(state('2027-01-22T00:00:00Z', 'LG-20')?.state).toBe('never-tested')
    const later = state('2027-05-08T00:00:00Z', 'LG-01')
    expect(later?.state).toBe('to-be-proved-again')
    expect(later?.reasons.join(' ')).toContain('Diaphragm wall')
  })

  it('foretells the shadow of the containers before they are stacked', () => {
    const stack = site.obstructions.find(({ id }) => id === 'containers')
    expect(stack).toBeDefined()
    const before = study('2027-08-01T00:00:00Z', { obstruction: stack ?? null, gateway: null })
    expect(shareOf(before, 'LG-19')).toBeGreaterThan(0.95)
    expect(shareOf(before, 'LG-19', 'planned')).toBeLessThan(0.5)
    expect(shareOf(before, 'LG-03', 'planned')).toBeGreaterThan(0.95)
    expect(shareOf(study('2027-08-10T00:00:00Z'), 'LG-19')).toBeCloseTo(
      shareOf(before, 'LG-19', 'planned'),
      6,
    )
  })

  it('says what a higher mast would gain behind them', () => {
    const mast = site.gateways.find(({ id }) => id === 'GW-1')
    const raised = mast && { ...mast, levelMetres: mast.levelMetres + 6 }
    const found = study('2027-08-10T00:00:00Z', { obstruction: null, gateway: raised ?? null })
    expect(shareOf(found, 'LG-19', 'planned')).toBeGreaterThan(shareOf(found, 'LG-19') + 0.3)
  })

  it('does not promise a logger more than its own test allows', () => {
    expect(shareOf(may, 'LG-22')).toBeLessThan(0.85)
  })
})

describe('leave-one-spot-out check of the sample', () => {
  const { check } = accepted(
    studyNetwork({
      site,
      atEpochMs: Date.parse('2027-08-01T00:00:00Z'),
      wantedShare: 0.9,
      planned: nothing,
      grid: { spreadingFactor: 7, gateway: null },
      checked: true,
    }),
  )

  it('leaves out close spots together and tells what was met', () => {
    expect(check?.blocks).toBeLessThan(38)
    expect(check?.skill).toBeGreaterThan(0)
    expect(check?.skill).toBeLessThan(1)
    expect(check?.withinInterval).toBeGreaterThan(0.6)
    for (const row of check?.reliability ?? []) {
      expect(row.interval.low).toBeLessThanOrEqual(row.received / row.sent)
      expect(row.predictedShare).toBeGreaterThanOrEqual(row.low)
    }
  })
})
