import { expect, test, vi } from 'vitest'
import { listenForGestures } from '../../../../web/views/time-history/history-gestures.ts'
import { toX } from '../../../../web/views/time-history/history-layout.ts'
import { timeHistoryScene } from '../../../../web/views/time-history/scene.ts'
import { madeHistory } from './made-history.ts'

const minuteMs = 60_000
const size = { widthPixels: 1000, heightPixels: 600, fontPixels: 14 }

function dragged(choosing: boolean, pointerType: string, from: number, until: number) {
  const props = madeHistory({ choosing })
  const { layout } = timeHistoryScene(props, size)
  const drawing = document.createElementNS('http://www.w3.org/2000/svg', 'svg')
  drawing.setPointerCapture = () => {}
  drawing.getBoundingClientRect = () => ({ left: 0, width: size.widthPixels }) as DOMRect
  const events = { onClock: vi.fn(), onWindow: vi.fn(), onStretch: vi.fn(), onBand: vi.fn() }
  listenForGestures(drawing, () => ({ props, layout }), events)
  const x = toX(layout, props)
  const point = (name: string, at: number) => {
    const event = new MouseEvent(name, { clientX: x(at), button: 0 })
    drawing.dispatchEvent(Object.assign(event, { pointerId: 1, pointerType }))
  }
  point('pointerdown', from)
  point('pointermove', until)
  point('pointerup', until)
  return { events, layout, props }
}

test.each(['mouse', 'touch'])(
  'while choosing, dragging with a %s chooses whole minutes, either way',
  (type) => {
    for (const [from, until] of [
      [120.4, 300.2],
      [300.2, 120.4],
    ] as const) {
      const { events } = dragged(true, type, from * minuteMs, until * minuteMs)
      expect(events.onStretch).toHaveBeenCalledExactlyOnceWith({
        fromEpochMs: 120 * minuteMs,
        untilEpochMs: 301 * minuteMs,
      })
      expect(events.onWindow).not.toHaveBeenCalled()
    }
  },
)

test('a drag beyond the drawing ends at its edge, and begins a stretch even on the clock', () => {
  const { events, props } = dragged(true, 'mouse', 12.5 * 60 * minuteMs, 30 * 60 * minuteMs)
  const [stretch] = events.onStretch.mock.calls[0] ?? []
  expect(stretch).toEqual({ fromEpochMs: 750 * minuteMs, untilEpochMs: props.untilEpochMs })
  expect(events.onClock).not.toHaveBeenCalled()
})

test('without it, dragging moves the window as ever', () => {
  const { events } = dragged(false, 'mouse', 120 * minuteMs, 300 * minuteMs)
  expect(events.onStretch).not.toHaveBeenCalled()
  expect(events.onWindow).toHaveBeenCalledOnce()
})
