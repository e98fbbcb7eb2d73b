import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { changeSeen } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import { nearness } from '../nearness.ts'
import type { Neighbour, ReviewCase } from '../review-case.ts'
import { changeText, pictureOf, placeText } from '../wording.ts'

const id = 'same-quantity'
/** Neighbours looked at, those of the same layer first. */
const most = 3
const dayMs = 86_400_000
const latelyDays = 30
/** A parting that is a smaller share of what all of them did comes of their places, not of one of them. */
const leastShare = 0.1

/** The same quantity read elsewhere: what the ground does is shared, what a sensor does is its own. */
export const sameQuantity: ReviewRule = {
  id,
  title: 'The same quantity beside it',
  tells: ['value'],
  reason:
    'The ground moves neighbours of one layer together, more or less by their distance; a fault of one sensor leaves its neighbours alone.',
  source: 'Dunnicliff, Geotechnical Instrumentation for Monitoring Field Performance (1988); from memory',
  weigh(reviewed) {
    const neighbours = [...reviewed.same]
      .sort(
        (one, other) =>
          Number(other.sameStratum) - Number(one.sameStratum) || one.distanceMetres - other.distanceMetres,
      )
      .slice(0, most)
    if (neighbours.length === 0)
      return [
        lacks(
          id,
          'ground',
          'No point beside it has readings of the same quantity in this stretch: nothing can be held against it.',
        ),
      ]
    // A slow parting shows best in the last weeks, where nothing larger happened to all of them.
    const latelyMs = Math.max(latelyDays * dayMs, 12 * reviewed.subject.intervalMinutes * 60_000)
    const lately = {
      ...reviewed,
      fromEpochMs: Math.max(reviewed.fromEpochMs, reviewed.untilEpochMs - latelyMs),
    }
    const alone = oddOneOut(lately, neighbours) ?? oddOneOut(reviewed, neighbours)
    if (alone) return alone
    return neighbours.flatMap((one, place) => weighOne(reviewed, one, shareOf(reviewed, one, place)))
  },
}

/** The first tells most, others repeat it; those of another layer and those far off tell less. */
const shareOf = (reviewed: ReviewCase, one: Neighbour, place: number): number =>
  (place === 0 ? 1 : 0.5) * (one.sameStratum ? 1 : 0.5) * nearness(reviewed.subject.measure, one)

/** Neighbours of one layer that go together while it parts from each of them; null where they do not. */
function oddOneOut(reviewed: ReviewCase, neighbours: readonly Neighbour[]): readonly Evidence[] | null {
  const layer = neighbours.filter(({ sameStratum }) => sameStratum)
  if (layer.length < 2) return null
  const parted = layer.map((one) => looksAt(reviewed, one).difference(one))
  if (!parted.every((difference) => isBeyondChance(difference))) return null
  const sizes = parted.map((difference) => difference?.size ?? 0)
  const least = Math.min(...sizes.map(Math.abs))
  if (!sizes.every((size) => Math.sign(size) === Math.sign(sizes[0] as number))) return null
  const shared = Math.max(...layer.map((one) => Math.abs(looksAt(reviewed, one).of(one).movement?.size ?? 0)))
  if (least < leastShare * shared) return null
  const [first, ...others] = layer as [Neighbour, ...Neighbour[]]
  const between = others.map((other) => looksAt({ ...reviewed, subject: first }, other).difference(other))
  const together = between.every((difference) => difference !== null && Math.abs(difference.size) < least / 3)
  if (!together) return null
  const at = sizes.findIndex((size) => Math.abs(size) === least)
  const nearest = layer[at] as Neighbour
  const looks = looksAt(reviewed, nearest)
  // The least of several was chosen: an interval that holds for all of them at once holds for it.
  const held = changeSeen(
    `Parting from ${nearest.point}, the least of ${layer.length}`,
    looks.differenceShown(nearest, 1 - 0.05 / layer.length),
    reviewed.subject.unit,
    looks.grid.stepMs,
  )
  const seen = { ...held.figure, picture: pictureOf(reviewed, ...layer) }
  const sentence = `${layer.map(({ point }) => point).join(', ')} go together, and it parted from each of them by ${changeText(least * Math.sign(sizes[0] as number), reviewed.subject.unit)} or more.${held.words}`
  const near = Math.max(...layer.map((one) => nearness(reviewed.subject.measure, one)))
  const besideIt = looksAt(reviewed, first).of(first).movement
  const own = looksAt(reviewed, first).movement
  // What moved while it stood still is no reason to take the movement for none.
  const stoodStill = isBeyondChance(besideIt) && !(Math.abs(own?.size ?? 0) > Math.abs(besideIt.size))
  return [
    speaks(id, 'sensor', 10 * near, sentence, seen),
    ...(stoodStill ? [] : [speaks(id, 'ground', -5 * near, sentence, seen)]),
  ]
}

function weighOne(reviewed: ReviewCase, neighbour: Neighbour, share: number): readonly Evidence[] {
  const { subject } = reviewed
  const looks = looksAt(reviewed, neighbour)
  const own = looks.movement
  const { movement } = looks.of(neighbour)
  const difference = looks.difference(neighbour)
  const where = placeText(neighbour)
  if (own === null || movement === null || difference === null)
    return [
      lacks(
        id,
        'ground',
        `${where} has too few readings in this stretch to be held against it.`,
        pictureOf(reviewed, neighbour),
      ),
    ]
  const held = changeSeen(
    'Difference between them',
    looks.differenceShown(neighbour),
    subject.unit,
    looks.grid.stepMs,
  )
  const seen = { ...held.figure, picture: pictureOf(reviewed, neighbour) }
  const apart = isBeyondChance(difference)
  const moved = isBeyondChance(own)
  const besideMoved = isBeyondChance(movement)
  if (!apart && moved && besideMoved && Math.sign(own.size) === Math.sign(movement.size)) {
    const sentence = `${where} changed with it, ${changeText(movement.size, subject.unit)} beside ${changeText(own.size, subject.unit)}.${held.words}`
    return [speaks(id, 'ground', 8 * share, sentence, seen), speaks(id, 'sensor', -8 * share, sentence, seen)]
  }
  if (!apart) {
    const sentence = `It goes as ${where} does: their difference shows no change.${held.words}`
    return [speaks(id, 'sensor', -2 * share, sentence, seen)]
  }
  const follows = besideMoved && Math.sign(movement.size) === Math.sign(own.size) && moved
  const ratio = Math.abs(movement.size) / Math.abs(own.size)
  if (follows && ratio >= 0.1 && ratio <= 1) {
    const sentence = `${where} changed the same way but by less, ${changeText(movement.size, subject.unit)} beside ${changeText(own.size, subject.unit)}, as it does at the edge of what is local.${held.words}`
    return [speaks(id, 'ground', 5 * share, sentence, seen)]
  }
  if (follows && ratio > 1) {
    const sentence = `${where} changed the same way and by more, ${changeText(movement.size, subject.unit)} beside ${changeText(own.size, subject.unit)}: what it shows may be too little.${held.words}`
    return [speaks(id, 'sensor', 3 * share, sentence, seen), speaks(id, 'ground', 3 * share, sentence, seen)]
  }
  const beside = besideMoved
    ? `, which changed by ${changeText(movement.size, subject.unit)}`
    : ', which shows nothing of it'
  const sentence = `It parted from ${where} by ${changeText(difference.size, subject.unit)} (${difference.kind === 'step' ? 'at once' : 'steadily'})${beside}.${held.words}`
  const larger = besideMoved && Math.abs(movement.size) > Math.abs(own.size)
  return [
    speaks(id, 'sensor', 5 * share, sentence, seen),
    ...(larger ? [] : [speaks(id, 'ground', -3 * share, sentence, seen)]),
  ]
}
