import fc from 'fast-check'
import { expect, test } from 'vitest'
import { keyMove } from '../../../../web/views/time-history/history-gestures.ts'
import { between, narrowestMs, shiftBy, zoomAbout } from '../../../../web/views/time-history/window-moves.ts'
import { madeHistory } from './made-history.ts'

const dayMs = 86_400_000
const span = [0, 100 * dayMs] as const

test('the instant zoomed about keeps its place', () => {
  const zoomed = zoomAbout({ fromEpochMs: 20 * dayMs, untilEpochMs: 40 * dayMs }, 25 * dayMs, 0.5, span)
  expect(zoomed).toEqual({ fromEpochMs: 22.5 * dayMs, untilEpochMs: 32.5 * dayMs })
})

test('no move leaves the span or turns a window inside out', () => {
  const instant = fc.integer({ min: 0, max: span[1] })
  fc.assert(
    fc.property(
      instant,
      instant,
      instant,
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      (one, other, at, factor) => {
        const start = between(one, other, span)
        for (const window of [start, zoomAbout(start, at, factor, span), shiftBy(start, at - one, span)]) {
          expect(window.fromEpochMs).toBeGreaterThanOrEqual(0)
          expect(window.untilEpochMs).toBeLessThanOrEqual(span[1])
          expect(window.untilEpochMs - window.fromEpochMs).toBeGreaterThanOrEqual(narrowestMs - 1)
        }
      },
    ),
    { seed: 6 },
  )
})

test('keys: arrows move the clock, with Shift the dates, Home shows all, others do nothing', () => {
  const props = madeHistory()
  const key = (name: string, shiftKey = false) => keyMove({ key: name, shiftKey }, { props })
  expect(key('ArrowRight')).toEqual({ clock: 13.5 * 3_600_000 })
  expect(key('ArrowRight', true)).toEqual({ fromEpochMs: 6 * 3_600_000, untilEpochMs: 30 * 3_600_000 })
  expect(key('Home')).toEqual({ fromEpochMs: 0, untilEpochMs: 240 * 3_600_000 })
  expect(key('a')).toBeNull()
})
