/** What evaluation says of the channels that a level in force hangs on. */
export interface WatchedStanding {
  /** Of those that are read: without current data. */
  readonly unknown: readonly { readonly critical: boolean }[]
  /** Those that are read. */
  readonly watchedSeries: number
  /** With a level in force, read by nothing and without a value of late. */
  readonly unreadSeries: number
}

/** How many channels a level in force hangs on, and of how many of them nothing is known. */
export interface SilentWatched {
  readonly watched: number
  readonly silent: number
  /** Of the silent ones those that nothing reads. */
  readonly unread: number
  /** Of the silent ones that are read. */
  readonly critical: number
}

/**
 * The one count of watched channels without current data, of which messages, banner, boards and reports tell: a channel
 * with a level that nothing reads is silent like one whose readings stay away, since neither can raise anything.
 */
export const silentWatched = ({ unknown, watchedSeries, unreadSeries }: WatchedStanding): SilentWatched => ({
  watched: watchedSeries + unreadSeries,
  silent: unknown.length + unreadSeries,
  unread: unreadSeries,
  critical: unknown.filter((one) => one.critical).length,
})

/** "14 of 90 watched channels have no current data", with how many of them are read by nothing; no stop. */
export function silentWatchedWords(counted: SilentWatched): string {
  const { silent, watched } = counted
  return `${silent} of ${watched} watched channels ${silent === 1 ? 'has' : 'have'} no current data${readByNothing(counted)}`
}

/** The same after a count of all channels without current data: "14 of the 90 watched". */
export const silentAmongWatched = (counted: SilentWatched): string =>
  `${counted.silent} of the ${counted.watched} watched${readByNothing(counted)}`

const readByNothing = ({ silent, unread }: SilentWatched): string =>
  unread === 0 ? '' : unread === silent ? ', read by nothing' : `, ${unread} of them read by nothing`
