import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { SandboxRecipe } from '#domain/what-if/sandbox-recipe.ts'
import { siteDocument } from '../../state/site-document.ts'
import { surfaceOf } from './create-surfaces.ts'

/** Which series may be changed where one is looked at, and whose channels may be read instead; the likeliest first. */
export function createTargets(subject: () => Series | null, recipe: () => SandboxRecipe | null) {
  const changed = createMemo((): readonly string[] => {
    const [on, known] = [subject(), recipe()]
    if (!on || !known) return []
    const calibrated = new Set(known.links.flatMap(({ series, steps }) => (steps === null ? [] : [series])))
    const members = membersOf(on.id, known)
    const own = [...members].filter((id) => calibrated.has(id))
    const companions = [...calibrated].filter(
      (id) =>
        !members.has(id) &&
        known.links.some(
          (link) =>
            members.has(link.series) && (link.temperatureSeries === id || link.barometerSeries === id),
        ),
    )
    // A string of segments is changed as one, likelier than a segment alone.
    const patterns = on.made ? patternsOf(own) : surfaceOf(on) === 'settlement' ? ['*/settlement'] : []
    const all = on.made ? [...patterns, ...own] : [...own, ...patterns]
    return [...all, ...companions]
  })
  const partners = createMemo((): readonly string[] => {
    const document = siteDocument()
    const first = changed()[0]
    if (!document || first === undefined) return []
    const measure = first.split('/')[1]
    const kindOf = new Map(document.points.map(({ id, kind }) => [id, kind]))
    const pointOf = (id: string) => id.split('/')[0] ?? ''
    const sensors = document.series.filter(({ made }) => !made)
    const own = changed().map(pointOf)
    const beside = sensors.filter(({ point }) => own.includes(point)).map(({ id }) => id)
    const alike = sensors.filter(
      (one) =>
        one.measure === measure &&
        kindOf.get(one.point) === kindOf.get(own.find((id) => kindOf.has(id)) ?? ''),
    )
    const others = changed().filter((one) => one.includes('*'))
    const all = [...others, ...beside, ...alike.map(({ id }) => id)]
    // Leads are exchanged between axes of one instrument far oftener than between a tilt and its thermistor.
    const isWarmth = (id: string) => Number(id.endsWith('/temperature'))
    return [...new Set(all)]
      .toSorted((one, other) => isWarmth(one) - isWarmth(other))
      .filter((one) => one !== '*/settlement')
  })
  return { changed, partners }
}

/** The sensors that a series is made of, itself where it is one. */
function membersOf(series: string, { links, bundles }: SandboxRecipe): ReadonlySet<string> {
  const found = new Set([series])
  for (const id of found)
    for (const { outputs, slots } of bundles)
      if (outputs.some((output) => output.id === id))
        for (const slot of slots) for (const one of slot.series) found.add(one)
  const read = new Set(links.map((link) => link.series))
  return new Set([...found].filter((id) => read.has(id)))
}

/** `IP-02-01/inclination-a`, `IP-02-02/inclination-a` … as `IP-02-*` + `/inclination-a`. */
function patternsOf(ids: readonly string[]): readonly string[] {
  const counts = new Map<string, number>()
  for (const id of ids) {
    const pattern = id.replace(/-[^-/]+\//, '-*/')
    if (pattern !== id) counts.set(pattern, (counts.get(pattern) ?? 0) + 1)
  }
  return [...counts].filter(([, count]) => count > 1).map(([pattern]) => pattern)
}
