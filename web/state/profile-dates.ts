import { createSignal } from 'solid-js'

// The clock's own and these have an ink each.
const mostDates = 5
const [profileDates, setProfileDates] = createSignal<readonly number[]>([])

/** Further instants at which depth profiles are drawn beside the clock's, UTC ms, earliest first. */
export { profileDates }

/** Adds an instant; of more than five the earliest goes. */
export function addProfileDate(atEpochMs: number): void {
  restoreProfileDates([...profileDates(), atEpochMs])
}

export function removeProfileDate(atEpochMs: number): void {
  restoreProfileDates(profileDates().filter((one) => one !== atEpochMs))
}

export function restoreProfileDates(dates: readonly number[]): void {
  setProfileDates([...new Set(dates)].sort((left, right) => left - right).slice(-mostDates))
}
