import { describe, expect, test } from 'vitest'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import type { SectionPoint, SectionProps } from '../../../../web/views/section/section-props.ts'
import { drawn, feature, has, ring, section, size, tip } from './made-section.ts'

test('water would rise ten metres above a tip at 98.1 kPa', () => {
  const { y } = layOutSection(section, size)
  const mark = drawn().find((one) => has(one, 'water-mark'))
  expect(mark?.title).toBe('PZ-09C: water would rise to −4.00 m')
  const stem = drawn().find((one) => has(one, 'water-stem'))
  expect(Number(stem?.attributes.y2)).toBeCloseTo(y(-4), 0)
})

describe('water between tips', () => {
  const deep = (changes: Partial<SectionPoint>) =>
    tip({ stratum: 'Dense sand', northingMetres: 0, ...changes })
  const pair = [
    deep({ point: 'PZ-1', eastingMetres: 10, value: 98.1 }),
    deep({ point: 'PZ-2', eastingMetres: 30, value: 117.72 }),
  ]
  const lines = (props: SectionProps) => drawn(props).filter((mark) => has(mark, 'water-line'))

  test('is joined between near tips of one stratum, at the levels to which it would rise', () => {
    const props = { ...section, works: { type: 'FeatureCollection' as const, features: [] }, points: pair }
    expect(lines(props)).toHaveLength(1)
    expect(lines({ ...props, joinLayersWithinMetres: 15 })).toHaveLength(0)
    const [first, second] = pair as [SectionPoint, SectionPoint]
    expect(lines({ ...props, points: [first, { ...second, stratum: 'Soft clay' }] })).toHaveLength(0)
    expect(lines({ ...props, points: [first, { ...second, standing: 'late' }] })).toHaveLength(0)
  })

  test('a wall that stands and reaches below the tips parts it; before it is built, or if it is too short, it does not', () => {
    const wall = (base: number, fromDay: number) => ({
      type: 'FeatureCollection' as const,
      features: [
        feature(
          'w',
          'wall',
          ring([
            [20, -5],
            [21, -5],
            [21, 5],
            [20, 5],
          ]),
          4,
          base,
          fromDay,
          null,
        ),
      ],
    })
    const props = (base: number, fromDay: number) => ({
      ...section,
      works: wall(base, fromDay),
      points: pair,
    })
    expect(lines(props(-18, 0))).toHaveLength(0)
    expect(lines(props(-10, 0))).toHaveLength(1)
    expect(lines(props(-18, 100_000))).toHaveLength(1)
  })
})

test('a pumped well stands in the section with its screen and its rate, one too far off does not', () => {
  const well = {
    id: 'W-1',
    eastingMetres: 40,
    northingMetres: 2,
    screenTopLevelMetres: -6,
    screenBaseLevelMetres: -14,
    rateLitresPerSecond: 22,
    text: 'W-1 22 l/s',
  }
  const marks = drawn({ wells: [well, { ...well, id: 'W-2', northingMetres: 60 }] })
  const screens = marks.filter((mark) => has(mark, 'well-screen'))
  expect(screens.map((mark) => mark.title)).toEqual(['Well W-1 22 l/s, screen from −6.0 down to −14.0 m'])
  expect(
    drawn({ wells: [{ ...well, screenTopLevelMetres: null }] }).some((mark) => has(mark, 'well-screen')),
  ).toBe(false)
})
