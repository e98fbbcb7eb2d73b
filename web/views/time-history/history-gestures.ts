import { type HistoryLayout, toInstant, toX } from './history-layout.ts'
import type { HistoryStretch, TimeHistoryEvents, TimeHistoryProps } from './history-props.ts'
import { between, shiftBy, type TimeWindow, zoomAbout } from './window-moves.ts'

interface Pointer {
  readonly startX: number
  x: number
}

/** What the gestures need to know of the drawing at the moment they happen. */
export interface Shown {
  readonly props: TimeHistoryProps
  readonly layout: HistoryLayout
}

export interface GestureEvents extends TimeHistoryEvents {
  /** A window being dragged out, in pixels; null when it ends. */
  readonly onBand: (band: readonly [from: number, until: number] | null) => void
}

type Gesture = 'clock' | 'band' | 'slide' | 'pinch' | 'stretch'

/**
 * Pointer, wheel and keys on the drawing. Mouse: drag the clock by its line, drag elsewhere to zoom, press to
 * set the clock. Touch: one finger slides the window, two narrow or widen it. While a stretch is being chosen, dragging
 * with either chooses it. Keys: arrows move the clock,
 * with Shift the window; plus and minus zoom about the clock; Home shows everything.
 */
export function listenForGestures(
  drawing: SVGSVGElement,
  shown: () => Shown | null,
  events: GestureEvents,
): void {
  const pointers = new Map<number, Pointer>()
  let gesture: Gesture | null = null
  let startWindow: TimeWindow | null = null

  const xOf = (event: PointerEvent | WheelEvent) => {
    const frame = drawing.getBoundingClientRect()
    return ((event.clientX - frame.left) * (shown()?.layout.widthPixels ?? frame.width)) / frame.width
  }
  const showWindow = (window: TimeWindow) => events.onWindow(window.fromEpochMs, window.untilEpochMs)
  const setClock = ({ props, layout }: Shown, x: number) => {
    const at = toInstant(layout, props, Math.min(Math.max(x, layout.left), layout.right))
    events.onClock(
      Math.min(Math.max(Math.round(at / 60_000) * 60_000, props.spanEpochMs[0]), props.spanEpochMs[1]),
    )
  }

  drawing.addEventListener('pointerdown', (event) => {
    const now = shown()
    if (!now || event.button !== 0) return
    const x = xOf(event)
    if (x < now.layout.left - 20 || x > now.layout.right + 20) return
    drawing.setPointerCapture(event.pointerId)
    pointers.set(event.pointerId, { startX: x, x })
    startWindow = now.props
    if (pointers.size === 2) {
      gesture = 'pinch'
      events.onBand(null)
      for (const [id, pointer] of pointers) pointers.set(id, { startX: pointer.x, x: pointer.x })
      return
    }
    const reach = event.pointerType === 'touch' ? 24 : 10
    const clock = now.props.clockEpochMs
    const onClock = clock !== null && Math.abs(toX(now.layout, now.props)(clock) - x) <= reach
    const moving = onClock ? 'clock' : event.pointerType === 'touch' ? 'slide' : 'band'
    gesture = now.props.choosing ? 'stretch' : moving
  })

  drawing.addEventListener('pointermove', (event) => {
    const pointer = pointers.get(event.pointerId)
    const now = shown()
    if (!pointer || !now || !gesture || !startWindow) return
    pointer.x = xOf(event)
    if (gesture === 'clock') setClock(now, pointer.x)
    else if (gesture === 'band' || gesture === 'stretch') events.onBand([pointer.startX, pointer.x])
    else if (gesture === 'slide') {
      if (Math.abs(pointer.x - pointer.startX) > 6) showWindow(slid(now, startWindow, pointer))
    } else showWindow(pinched(now, startWindow, [...pointers.values()]))
  })

  const finish = (event: PointerEvent) => {
    const pointer = pointers.get(event.pointerId)
    const now = shown()
    pointers.delete(event.pointerId)
    if (pointer && now && event.type === 'pointerup') {
      const still = Math.abs(pointer.x - pointer.startX) <= 6
      if (gesture === 'band' && !still)
        showWindow(
          between(
            toInstant(now.layout, now.props, pointer.startX),
            toInstant(now.layout, now.props, pointer.x),
            now.props.spanEpochMs,
          ),
        )
      else if (gesture === 'stretch' && !still) events.onStretch?.(chosen(now, pointer))
      else if ((gesture === 'band' || gesture === 'slide') && still) setClock(now, pointer.x)
    }
    if (pointers.size === 0) {
      gesture = null
      startWindow = null
    }
    events.onBand(null)
  }
  drawing.addEventListener('pointerup', finish)
  drawing.addEventListener('pointercancel', finish)

  drawing.addEventListener(
    'wheel',
    (event) => {
      const now = shown()
      // A plain wheel scrolls the page; with Ctrl, as a trackpad's pinch sends it, it zooms.
      if (!now || !event.ctrlKey) return
      event.preventDefault()
      const at = toInstant(now.layout, now.props, xOf(event))
      showWindow(zoomAbout(now.props, at, Math.exp(event.deltaY / 200), now.props.spanEpochMs))
    },
    { passive: false },
  )

  drawing.addEventListener('keydown', (event) => {
    const now = shown()
    if (!now || event.altKey || event.metaKey || event.ctrlKey) return
    const move = keyMove(event, now)
    if (!move) return
    event.preventDefault()
    if ('clock' in move) events.onClock(move.clock)
    else showWindow(move)
  })
}

/** What a key does: a new clock, a new window, or nothing. */
export function keyMove(
  event: { key: string; shiftKey: boolean },
  { props }: Pick<Shown, 'props'>,
): { clock: number } | TimeWindow | null {
  const [from, until] = props.spanEpochMs
  const length = props.untilEpochMs - props.fromEpochMs
  const clock = props.clockEpochMs ?? props.untilEpochMs
  const about =
    clock >= props.fromEpochMs && clock <= props.untilEpochMs ? clock : props.fromEpochMs + length / 2
  const stepMs = Math.max(60_000, Math.min(...props.series.map((one) => one.intervalMinutes), 60) * 60_000)
  const steps = Math.max(stepMs, Math.round(length / 200 / stepMs) * stepMs)
  const clamp = (at: number) => Math.min(Math.max(at, from), until)
  switch (event.key) {
    case 'ArrowLeft':
      return event.shiftKey ? shiftBy(props, -length / 4, props.spanEpochMs) : { clock: clamp(clock - steps) }
    case 'ArrowRight':
      return event.shiftKey ? shiftBy(props, length / 4, props.spanEpochMs) : { clock: clamp(clock + steps) }
    case '+':
    case '=':
      return zoomAbout(props, about, 0.5, props.spanEpochMs)
    case '-':
      return zoomAbout(props, about, 2, props.spanEpochMs)
    case 'Home':
      return { fromEpochMs: from, untilEpochMs: until }
    default:
      return null
  }
}

/** Whole minutes that hold everything that was dragged over, within the window. */
function chosen({ props, layout }: Shown, { startX, x }: Pointer): HistoryStretch {
  const inside = (pixel: number) =>
    toInstant(layout, props, Math.min(Math.max(pixel, layout.left), layout.right))
  const minuteMs = 60_000
  const fromEpochMs = Math.floor(inside(Math.min(startX, x)) / minuteMs) * minuteMs
  const untilEpochMs = Math.ceil(inside(Math.max(startX, x)) / minuteMs) * minuteMs
  return { fromEpochMs, untilEpochMs: Math.max(untilEpochMs, fromEpochMs + minuteMs) }
}

function slid({ props, layout }: Shown, start: TimeWindow, pointer: Pointer): TimeWindow {
  const perPixel = (start.untilEpochMs - start.fromEpochMs) / (layout.right - layout.left)
  return shiftBy(start, (pointer.startX - pointer.x) * perPixel, props.spanEpochMs)
}

function pinched({ props, layout }: Shown, start: TimeWindow, [one, other]: Pointer[]): TimeWindow {
  if (!one || !other) return start
  const before = Math.max(8, Math.abs(one.startX - other.startX))
  const after = Math.max(8, Math.abs(one.x - other.x))
  const middleBefore = toInstant(layout, start, (one.startX + other.startX) / 2)
  const zoomed = zoomAbout(start, middleBefore, before / after, props.spanEpochMs)
  const perPixel = (zoomed.untilEpochMs - zoomed.fromEpochMs) / (layout.right - layout.left)
  const moved = (one.startX + other.startX - one.x - other.x) / 2
  return shiftBy(zoomed, moved * perPixel, props.spanEpochMs)
}
