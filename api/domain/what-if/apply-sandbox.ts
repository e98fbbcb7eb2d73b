import { groupBy } from '../group-by.ts'
import { accept, type Issue, type Outcome } from '../outcome.ts'
import { withBarometer, withCoefficient, withOffset, withThermal } from './edit-chain.ts'
import { withClock } from './edit-clock.ts'
import { editLinks, nothingTouched, refuse } from './edit-links.ts'
import { withWiring } from './edit-wiring.ts'
import { withZero } from './edit-zero.ts'
import { type CompanionOf, type CompanionValues, reduceSensor } from './reduce-sensor.ts'
import type { SandboxChange, SandboxKind } from './sandbox-change.ts'
import type { RawReadings, SandboxRecipe } from './sandbox-recipe.ts'
import { unfitChange } from './unfit-change.ts'

/** Recipe and readings as they stand. */
export interface Standing {
  readonly recipe: SandboxRecipe
  readonly readings: RawReadings
}

export interface Sandbox extends Standing {
  /** Changes that could not be made, each with the number of its change and its field in `column`: `2.value`. */
  readonly faults: readonly Issue[]
}

/** Leads before clocks before chains, and a zero reading by the chain that all others have made. */
const order: readonly SandboxKind[] = [
  'wiring',
  'clock',
  'barometer',
  'thermal',
  'coefficient',
  'zero',
  'offset',
]

/**
 * Recipe and readings with changes made, of a kind in the order given; what was handed in stays as it is. A change that
 * cannot be made is left out whole and said: the others stand.
 */
export function applySandbox(official: Standing, changes: readonly SandboxChange[]): Sandbox {
  let standing = official
  const faults: Issue[] = []
  const numbered = changes.map((change, number) => ({ change, number }))
  for (const kind of order)
    for (const { change, number } of numbered.filter((one) => one.change.kind === kind)) {
      const made = applyChange(standing, change)
      if (made.ok) standing = made.value
      else
        faults.push(
          ...made.issues.map((issue) => ({ ...issue, column: `${number}.${issue.column ?? 'series'}` })),
        )
    }
  return { ...standing, faults }
}

function applyChange(standing: Standing, change: SandboxChange): Outcome<Standing> {
  const unfit = unfitChange(change)
  if (!unfit.ok) return unfit
  const { recipe, readings } = standing
  const nothing = nothingTouched(recipe, change)
  if (nothing !== null) return refuse('series', 'nothing-changed', nothing, change.series)
  if (change.kind === 'clock') return withClock(standing, change)
  const links = editedLinks(standing, change)
  return links.ok ? accept({ recipe: { ...recipe, links: links.value }, readings }) : links
}

function editedLinks({ recipe, readings }: Standing, change: Exclude<SandboxChange, { kind: 'clock' }>) {
  const { links } = recipe
  if (change.kind === 'wiring') return withWiring(links, change, readings)
  if (
    change.kind === 'barometer' &&
    change.barometer !== null &&
    !links.some(({ series }) => series === change.barometer)
  )
    return refuse(
      'barometer',
      'no-such-barometer',
      `There are no readings of ${change.barometer} here. Choose another.`,
      change.barometer,
    )
  const companionOf = companionsOf({ recipe, readings })
  return editLinks(links, change, (link) => {
    if (link.steps === null) return accept([link])
    const made = ((): Outcome<typeof link> => {
      switch (change.kind) {
        case 'coefficient':
          return withCoefficient(link, change)
        case 'barometer':
          return withBarometer(link, change)
        case 'thermal':
          return withThermal(link, change)
        case 'zero':
          return withZero(link, change, links, readings, companionOf)
        case 'offset':
          return accept(withOffset(link, change))
      }
    })()
    return made.ok ? accept([made.value]) : made
  })
}

/** Values of thermistors and barometers as a standing has them, each worked out once. */
export function companionsOf({ recipe, readings }: Standing): CompanionOf {
  const linksOf = groupBy(recipe.links, ({ series }) => series)
  const known = new Map<string, CompanionValues>()
  const of: CompanionOf = (series) => {
    const found = known.get(series)
    if (found) return found
    // Stands in for itself, so that a thermistor beside itself ends.
    known.set(series, { atEpochMs: [], value: [] })
    const { atEpochMs, value } = reduceSensor(linksOf.get(series) ?? [], readings, of)
    const kept = [...value.keys()].filter((at) => !Number.isNaN(value[at] as number))
    const values = {
      atEpochMs: kept.map((at) => atEpochMs[at] as number),
      value: kept.map((at) => value[at] as number),
    }
    known.set(series, values)
    return values
  }
  return of
}
