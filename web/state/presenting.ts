import { createSignal } from 'solid-js'

const [following, setFollowing] = createSignal(true)
const [remainingMs, setRemainingMs] = createSignal(0)
const [dark, setDark] = createSignal(false)

export {
  /** Whether the screen is dark, so that people look at who speaks. */
  dark as isDark,
  /** Whether boards follow one another by themselves. */
  following as boardsFollow,
  /** How long the shown board still stands by itself. */
  remainingMs,
}

export function letBoardsFollow(follow: boolean): void {
  setFollowing(follow)
}

/** Gives the shown board its whole time. */
export function startTime(lengthMs: number): void {
  setRemainingMs(lengthMs)
}

/** Lets time pass; true when the board has stood long enough. */
export function passTime(lengthMs: number): boolean {
  setRemainingMs((now) => Math.max(0, now - lengthMs))
  return remainingMs() === 0
}

export function darken(wanted: boolean): void {
  setDark(wanted)
}
