import { createSignal } from 'solid-js'
import { clockEpochMs, isAtPresent, scrubTo, spanEpochMs, stepClock } from './site-clock.ts'

/** Site time that passes in one second of watching. */
export const playSpeeds = [
  { name: '1 h/s', hoursPerSecond: 1 },
  { name: '6 h/s', hoursPerSecond: 6 },
  { name: '1 d/s', hoursPerSecond: 24 },
  { name: '7 d/s', hoursPerSecond: 168 },
] as const

const tickMs = 250

const [playing, setPlaying] = createSignal(false)
const [hoursPerSecond, setHoursPerSecond] = createSignal<number>(24)
let timer: ReturnType<typeof setInterval> | undefined

export { hoursPerSecond, playing }

export function chooseSpeed(speed: number): void {
  setHoursPerSecond(speed)
}

/** Runs the site clock forwards until the present; from the present it starts again at the beginning. */
export function play(): void {
  if (playing() || clockEpochMs() === null) return
  if (isAtPresent()) scrubTo(spanEpochMs().fromEpochMs)
  setPlaying(true)
  timer = setInterval(() => {
    stepClock(hoursPerSecond() * 3_600_000 * (tickMs / 1000))
    if (isAtPresent()) pause()
  }, tickMs)
}

export function pause(): void {
  clearInterval(timer)
  setPlaying(false)
}
