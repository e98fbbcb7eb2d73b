import { describe, expect, it } from 'vitest'
import { instrumentKinds } from '#domain/site/vocabulary.ts'
import { gatewaySymbol, loggerSymbol, type SymbolPaths, symbols } from '../../../web/ui/symbols.ts'

const all: [string, SymbolPaths][] = [
  ...(Object.entries(symbols) as [string, SymbolPaths][]),
  ['logger', loggerSymbol],
  ['gateway', gatewaySymbol],
]

/** Cells of a 12 by 12 raster that the corners and straight strokes of a symbol touch. */
function cells({ lines, solids }: SymbolPaths): Set<number> {
  const touched = new Set<number>()
  let [x, y, startX, startY] = [0, 0, 0, 0]
  const to = (nextX: number, nextY: number) => {
    const steps = Math.ceil(Math.hypot(nextX - x, nextY - y)) * 2 + 1
    for (let step = 0; step <= steps; step += 1) {
      const [atX, atY] = [x + ((nextX - x) * step) / steps, y + ((nextY - y) * step) / steps]
      touched.add(Math.floor(atY / 2) * 12 + Math.floor(atX / 2))
    }
    ;[x, y] = [nextX, nextY]
  }
  for (const [, letter = '', rest = ''] of (lines + solids).matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
    const numbers = [...rest.matchAll(/-?\d*\.?\d+/g)].map((match) => Number(match[0]))
    const relative = letter === letter.toLowerCase()
    const kind = letter.toLowerCase()
    if (kind === 'z') to(startX, startY)
    const size = { m: 2, l: 2, h: 1, v: 1, q: 4, t: 2, a: 7 }[kind] ?? 0
    for (let at = 0; size > 0 && at + size <= numbers.length; at += size) {
      const end = numbers.slice(at, at + size)
      const dx = kind === 'v' ? 0 : ((kind === 'h' ? end[0] : end[size - 2]) ?? 0)
      const dy = kind === 'h' ? 0 : (end[size - 1] ?? 0)
      const nextX = relative ? x + dx : kind === 'v' ? x : dx
      const nextY = relative ? y + dy : kind === 'h' ? y : dy
      if (kind === 'm' && at === 0) [x, y, startX, startY] = [nextX, nextY, nextX, nextY]
      else to(nextX, nextY)
    }
  }
  return touched
}

describe('symbols', () => {
  it('has one for every kind of instrument', () => {
    expect(Object.keys(symbols).sort()).toEqual([...instrumentKinds].sort())
  })

  it.each(all)('%s stays in its box and is not a speck', (_, paths) => {
    const touched = cells(paths)
    expect(touched.size).toBeGreaterThan(12)
    for (const cell of touched) {
      expect(cell).toBeGreaterThanOrEqual(0)
      expect(cell).toBeLessThan(144)
    }
  })

  it('are told apart by shape alone: a third of what any two touch differs', () => {
    for (const [left, leftPaths] of all) {
      for (const [right, rightPaths] of all) {
        if (left >= right) continue
        const [one, other] = [cells(leftPaths), cells(rightPaths)]
        const shared = [...one].filter((cell) => other.has(cell)).length
        const union = one.size + other.size - shared
        expect(1 - shared / union, `${left} and ${right}`).toBeGreaterThan(0.33)
      }
    }
  })
})
