import { accept, type Outcome } from '../outcome.ts'
import { linksWithin, part, refuse } from './edit-links.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { RawReadings, SandboxLink } from './sandbox-recipe.ts'
import { starOf } from './series-pattern.ts'

type WiringChange = Extract<SandboxChange, { kind: 'wiring' }>

/** Links after leads were moved: each series meant reads the channel of its other, and that its own where exchanged. */
export function withWiring(
  links: readonly SandboxLink[],
  change: WiringChange,
  readings: RawReadings,
): Outcome<readonly SandboxLink[]> {
  const moved = new Map<string, string>()
  for (const { series } of linksWithin(links, change)) {
    const other = change.readsAs.replace('*', starOf(change.series, series) ?? '')
    if (other === series)
      return refuse(
        'readsAs',
        'same-series',
        `${series} reads its own channel already. Choose another series.`,
        other,
      )
    moved.set(series, other)
    if (change.exchanged) moved.set(other, series)
  }
  const until = change.untilEpochMs ?? Number.POSITIVE_INFINITY
  const edited: SandboxLink[] = []
  for (const link of links) {
    const other = moved.get(link.series)
    if (other === undefined) {
      edited.push(link)
      continue
    }
    const lent = links.filter(({ series }) => series === other)
    if (lent.length === 0)
      return refuse(
        'readsAs',
        'no-such-channel',
        `No channel is known that ${other} is read by. Choose a series that a logger reads.`,
        other,
      )
    if (!lent.some(({ channel }) => (readings.get(channel)?.raw.length ?? 0) > 0))
      return refuse(
        'readsAs',
        'no-readings',
        `The channel of ${other} has no readings in this time. Choose another, or look at a longer time.`,
        other,
      )
    const from = Math.max(link.fromEpochMs, change.fromEpochMs)
    const end = Math.min(link.untilEpochMs, until)
    const pieces = [
      part(link, link.fromEpochMs, Math.min(link.untilEpochMs, change.fromEpochMs)),
      ...lent.map((one) => {
        const piece = part(link, Math.max(from, one.fromEpochMs), Math.min(end, one.untilEpochMs))
        return piece && { ...piece, channel: one.channel }
      }),
      part(link, Math.max(link.fromEpochMs, until), link.untilEpochMs),
    ]
    edited.push(...pieces.filter((piece) => piece !== null))
  }
  return accept(edited)
}
