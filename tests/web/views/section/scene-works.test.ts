import { describe, expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import { boresAlong } from '../../../../web/views/section/works-marks.ts'
import { dayMs, drawn, has, section, size } from './made-section.ts'

describe('works at the clock', () => {
  const digs = (day: number) =>
    drawn({ clockEpochMs: day * dayMs })
      .filter((mark) => has(mark, 'works-excavation'))
      .map((mark) => [mark.title?.split(':')[0], has(mark, 'there')])

  test('before a stage it is to come, during it is there, afterwards the next has replaced it', () => {
    expect(digs(1)).toEqual([
      ['dig-1 (to come)', false],
      ['dig-2 (to come)', false],
    ])
    expect(digs(15)).toEqual([
      ['dig-1', true],
      ['dig-2 (to come)', false],
    ])
    expect(digs(25)).toEqual([['dig-2', true]])
  })

  test('the excavation is cut where the line crosses it', () => {
    const { x } = layOutSection(section, size)
    const dig = drawn().find((mark) => has(mark, 'works-excavation'))
    expect(Number(dig?.attributes.x)).toBeCloseTo(x(20), 0)
    expect(Number(dig?.attributes.width)).toBeCloseTo(x(60) - x(20), 0)
  })
})

describe('a bore', () => {
  const axis = (point: SitePoint) =>
    stationOf(
      [
        [50, -100],
        [50, 100],
      ],
      point,
    )

  test('square to the line is as wide as it is high', () => {
    const [bore] = boresAlong(section.line, 100, axis, 1.7)
    const chainages = bore?.map(([chainage]) => chainage) ?? []
    expect(Math.max(...chainages) - Math.min(...chainages)).toBeCloseTo(3.4, 0)
    expect(Math.max(...(bore?.map(([, half]) => half) ?? []))).toBeCloseTo(1.7, 1)
  })

  test('along the line is a band of its full height', () => {
    const along = boresAlong(
      [
        [50, -20],
        [50, 20],
      ],
      40,
      axis,
      1.7,
    )
    expect(along).toHaveLength(1)
    expect(along[0]?.every(([, half]) => Math.abs(half - 1.7) < 1e-9)).toBe(true)
  })

  test('out of reach is not there', () => {
    expect(
      boresAlong(
        [
          [0, 0],
          [40, 0],
        ],
        40,
        axis,
        1.7,
      ),
    ).toEqual([])
  })
})
