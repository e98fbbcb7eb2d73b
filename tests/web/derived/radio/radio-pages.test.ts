import { describe, expect, it } from 'vitest'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { deliveryDrawing } from '../../../../web/derived/radio/delivery-drawing.ts'
import { beforeAndAfter, deliveryText, gainSentence } from '../../../../web/derived/radio/link-sentences.ts'
import { obstructionOf } from '../../../../web/derived/radio/planned-obstruction.ts'
import { cornersText } from '../../../../web/panels/network/corner-text.ts'
import { readCorners } from '../../../../web/panels/read-corners.ts'

const delivery = (middleShare: number, marginDb: number) => ({
  spreadingFactor: 7 as const,
  signalDbm: marginDb - 124.5,
  marginDb,
  marginInterval: { low: marginDb - 5, high: marginDb + 5 },
  middleShare,
  share: middleShare - 0.01,
  interval: { low: middleShare / 2, high: 0.99 },
  chanceOfWanted: 0.5,
})
const link = (gateway: string, middleShare: number, marginDb: number) => ({
  gateway,
  path: { distanceMetres: 50, lossDb: 0, mainEdge: null, inWorks: false },
  signal: { signalDbm: marginDb - 124.5, spreadDb: 3, degreesOfFreedom: 2 },
  carriedFrom: null,
  deliveries: [delivery(middleShare, marginDb)],
})
const proof = { state: 'proven' as const, test: 'T', atEpochMs: 0, verdict: null, reasons: [] }
const logger = (id: string) => ({ id, eastingMetres: 0, northingMetres: 0, levelMetres: 0 })

describe('radio pages', () => {
  it('tell the worst change first, by the gateway that is best then', () => {
    const rows = beforeAndAfter(
      [
        { logger: logger('A'), proof, links: [link('G1', 0.99, 30)], planned: [link('G1', 0.99, 30)] },
        {
          logger: logger('B'),
          proof,
          links: [link('G1', 0.99, 30), link('G2', 0.5, 0)],
          planned: [link('G1', 0.1, -8), link('G2', 0.5, 0)],
        },
      ],
      7,
    )
    expect(rows.map(({ logger: id, afterGateway }) => [id, afterGateway])).toEqual([
      ['B', 'G2'],
      ['A', 'G1'],
    ])
    expect(gainSentence(rows, 0.9)).toBe('Loggers below the wanted 90 %: 0 now, 1 then (B).')
    expect(deliveryText(rows[0]?.after)).toBe('50 % (25 to 99 %)')
  })

  it('shade cells by class and hatch those that are open', () => {
    const cell = {
      eastingMetres: 5,
      northingMetres: 5,
      gateway: 'G1',
      delivery: delivery(0.7, 3),
      open: true,
    }
    const cells = [cell, { ...cell, open: false }]
    const drawn = deliveryDrawing({ cellMetres: 2, cells }, (point): LngLat => [point[0], point[1]])
    expect(drawn.cells).toHaveLength(2)
    expect(drawn.cells[0]?.ring[0]).toEqual([4, 4])
    expect(drawn.cells[0]?.darkness).toBe(0.44)
    expect(drawn.hatch).toEqual([
      [
        [4, 4],
        [6, 6],
      ],
    ])
  })

  it('close a box, leave a wall open, and take nothing of too few corners', () => {
    const corners = [
      { eastingMetres: 0, northingMetres: 0 },
      { eastingMetres: 10, northingMetres: 0 },
      { eastingMetres: 10, northingMetres: 5 },
    ]
    expect(readCorners(cornersText(corners), 2, 'An obstruction')).toEqual({ ok: true, value: corners })
    const planned = { corners, closed: true, topLevelMetres: 8 }
    expect(obstructionOf(planned)?.outline).toHaveLength(4)
    expect(obstructionOf({ ...planned, closed: false })?.outline).toHaveLength(3)
    expect(obstructionOf({ ...planned, corners: corners.slice(0, 2) })).toBeNull()
  })
})
