import { expect, test } from 'vitest'
import type { Mark } from '../../../../web/views/marks/mark.ts'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import { sectionRemarks } from '../../../../web/views/section/section-table.ts'
import { drawn, has, hole, section, size } from './made-section.ts'

test('holes within the limit are shown with their offset, those farther off are not', () => {
  const names = drawn()
    .filter((mark) => has(mark, 'hole-name'))
    .map((mark) => mark.text)
  expect(names).toEqual(['PZ-09 3.0 m left', 'PZ-10 4.0 m right'])
  expect(sectionRemarks(section)[0]).toContain('2 of 2 brought onto it from aside; 1 lie farther off')
})

test('layers far apart are joined by dashes only, near ones are filled, and no base is drawn below a hole', () => {
  const far = drawn()
  expect(far.filter((mark) => has(mark, 'stratum'))).toHaveLength(2)
  expect(far.filter((mark) => has(mark, 'between-holes') && !has(mark, 'joined'))).toHaveLength(2)
  expect(far.filter((mark) => has(mark, 'stratum-body'))).toHaveLength(0)
  const near = drawn({ joinLayersWithinMetres: 100 })
  expect(near.filter((mark) => has(mark, 'joined'))).toHaveLength(2)
  expect(near.find((mark) => has(mark, 'stratum-body'))?.title).toBe(
    'Clay between PZ-09 and PZ-10, 70.3 m apart: taken as straight',
  )
  const short = {
    ...section,
    joinLayersWithinMetres: 100,
    holes: section.holes.map((one) => ({ ...one, lengthMetres: 9 })),
  }
  expect(drawn(short).filter((mark) => has(mark, 'joined'))).toHaveLength(1)
})

test('a surveyed hole is drawn as it runs, a straight one from end to end', () => {
  const survey = [
    { depthMetres: 10, azimuthDegrees: 90, dipDegrees: 85 },
    { depthMetres: 20, azimuthDegrees: 90, dipDegrees: 80 },
  ]
  const holes = [{ ...hole('PZ-09', 10, 3), survey }]
  const pieces = (marks: readonly Mark[]) =>
    String(marks.find((mark) => has(mark, 'hole'))?.attributes.d).split('L').length
  expect(pieces(drawn({ holes }))).toBe(21)
  expect(pieces(drawn({ holes: [hole('PZ-09', 10, 3)] }))).toBe(2)
  const [placed] = layOutSection({ ...section, holes }, size).holes
  // On average 2.5° over the first ten metres, 7.5° over the next.
  expect(placed?.foot.chainageMetres).toBeCloseTo(10 + 0.436 + 1.305, 2)
})

test('a hole that leans out of the section is drawn as far as it lies within, and its layers lean with it', () => {
  const leaning = { ...hole('PZ-09', 10, 3), azimuthDegrees: 0, dipDegrees: 60, lengthMetres: 30 }
  const props = { ...section, holes: [leaning] }
  const [placed] = layOutSection(props, size).holes
  expect(placed?.leaves).toBe(true)
  expect(placed?.foot.levelMetres).toBeGreaterThan(4 - 30 * Math.sin(Math.PI / 3))
  expect(drawn({ holes: [leaning] }).filter((mark) => has(mark, 'leaves'))).toHaveLength(1)
  expect(sectionRemarks(props).join(' ')).toContain('PZ-09 is in the section only from 4.0 down to')
  const along = { ...hole('PZ-10', 10, 0), azimuthDegrees: 90, dipDegrees: 45 }
  const { x } = layOutSection({ ...section, holes: [along] }, size)
  const layer = drawn({ holes: [along] }).find((mark) => has(mark, 'stratum'))
  // From 1 m, three metres below its collar, to −5 m it goes on as far as it goes down.
  const first = Number(/M([\d.]+)/.exec(String(layer?.attributes.d))?.[1])
  expect(layer?.tag).toBe('path')
  expect(first).toBeCloseTo(x(13) - size.fontPixels * 0.55, 0)
})

test('a layer without thickness and a hole without length are not drawn', () => {
  const flat = { ...hole('PZ-09', 10, 3), strata: [{ name: 'Clay', topLevelMetres: 1, baseLevelMetres: 1 }] }
  expect(drawn({ holes: [flat] }).some((mark) => has(mark, 'stratum'))).toBe(false)
  expect(drawn({ holes: [{ ...flat, lengthMetres: 0 }] }).some((mark) => has(mark, 'hole'))).toBe(false)
})
