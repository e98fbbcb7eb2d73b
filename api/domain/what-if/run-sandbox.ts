import type { Issue } from '../outcome.ts'
import { quality } from '../reduction/quality.ts'
import { applySandbox, type Sandbox, type Standing } from './apply-sandbox.ts'
import { linksWithin } from './edit-links.ts'
import { otherChains } from './other-chains.ts'
import { otherClocks } from './other-clocks.ts'
import { reduceRaw } from './reduce-raw.ts'
import { firstAtOrAfter, type ReducedSeries } from './reduced-series.ts'
import type { SandboxChange } from './sandbox-change.ts'

export interface SandboxRun extends Sandbox {
  /** Every series of the recipe with the changes made, as it would be published. */
  readonly values: ReadonlyMap<string, ReducedSeries>
  /** What a change that was made does that one may not expect, beside its field as `faults` are. */
  readonly cautions: readonly Issue[]
}

/** Makes the changes and reduces every raw reading anew; what was handed in stays as it is. */
export function runSandbox(
  official: Standing,
  changes: readonly SandboxChange[],
  fromEpochMs: number,
  untilEpochMs: number,
): SandboxRun {
  const sandbox = applySandbox(official, changes)
  const values = reduceRaw(sandbox.recipe, sandbox.readings, fromEpochMs, untilEpochMs)
  const refused = new Set(sandbox.faults.map(({ column }) => String(column).split('.')[0]))
  const cautions = changes.flatMap((change, number) =>
    refused.has(String(number))
      ? []
      : [
          ...otherChains(official.recipe, change, number),
          ...otherClocks(official.recipe, change, number),
          ...cautionsOf(sandbox, change, number, values),
        ],
  )
  return { ...sandbox, values, cautions }
}

function cautionsOf(
  { recipe }: Sandbox,
  change: SandboxChange,
  number: number,
  values: ReadonlyMap<string, ReducedSeries>,
): readonly Issue[] {
  if (change.kind !== 'barometer' || change.barometer === null) return []
  const series = new Set(linksWithin(recipe.links, change).map((link) => link.series))
  return [...series].flatMap((id) => {
    const own = values.get(id)
    if (!own) return []
    const end =
      change.untilEpochMs === null ? own.value.length : firstAtOrAfter(own.atEpochMs, change.untilEpochMs)
    const first = firstAtOrAfter(own.atEpochMs, change.fromEpochMs)
    let without = 0
    for (let at = first; at < end; at++)
      if (((own.quality[at] as number) & quality.barometerMissing) !== 0) without++
    return without === 0
      ? []
      : [
          {
            code: 'barometer-gap',
            column: `${number}.barometer`,
            value: change.barometer ?? '',
            message: `${without} of ${end - first} readings of ${id} have no reading of ${change.barometer} young enough before them: they have no value in the sandbox.`,
          },
        ]
  })
}
