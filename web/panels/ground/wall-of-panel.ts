import { createMemo, createSignal } from 'solid-js'
import { wallBeside } from '../../derived/ground/wall-of-inclinometer.ts'
import { type InwardAxis, inwardAxis, stageDugAt, wallReadings } from '../../derived/ground/wall-readings.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { DepthProfileProps } from '../../views/depth-profile/profile-props.ts'

type Way = `${InwardAxis['axis']}${'+' | '-'}`

/** An inclinometer in a wall beside a dig, as recorded until a person states otherwise. */
export function createWall() {
  const walls = createMemo(() => {
    const [document, grid, atEpochMs] = [siteDocument(), siteGrid(), clockEpochMs()]
    if (!document || !grid || atEpochMs === null) return []
    return document.instruments.flatMap((instrument) => {
      const at = document.locations.find(({ id }) => id === instrument.location)
      if (!instrument.kind.endsWith('-inclinometer') || !at) return []
      const place = [at.eastingMetres, at.northingMetres] as const
      const face = wallBeside(document.works, grid, place, { atEpochMs, withinMetres: 2 })
      return face ? [{ instrument, place, face }] : []
    })
  })
  const [wanted, choose] = createSignal<string | null>(null)
  const chosen = createMemo(() => {
    const id = wanted() ?? selectedInstrument()?.id
    return walls().find(({ instrument }) => instrument.id === id) ?? walls()[0] ?? null
  })
  const recorded = () => {
    const on = chosen()
    return on ? inwardAxis(on.instrument, on.face.bearingIntoDigDegrees) : null
  }
  const [stated, setWay] = createSignal<Way | null>(null)
  const way = (): Way => {
    const found = recorded()
    return stated() ?? (found ? `${found.axis}${found.sign === 1 ? '+' : '-'}` : 'a+')
  }
  const dug = () => stageDugAt(siteDocument()?.stages ?? [], clockEpochMs() ?? 0)
  const ground = () => siteDocument()?.facts.groundLevelMetres ?? 0
  const [depth, setDepth] = createSignal<number | null>(null)
  const [since, setSince] = createSignal<number | null>(null)
  /** The start of the first stage that digs. */
  const sinceEpochMs = () =>
    since() ??
    siteDocument()?.stages.find(({ formationLevelMetres }) => formationLevelMetres !== null)?.startsAt ??
    (clockEpochMs() ?? 0) - 28 * 86_400_000
  const read = createMemo(() => {
    const on = chosen()
    return on ? { instrument: on.instrument, axis: way()[0] as InwardAxis['axis'] } : null
  })
  return {
    walls,
    chosen,
    choose: (id: string) => {
      choose(id)
      setWay(null)
    },
    way,
    setWay,
    read,
    inward: (profile: DepthProfileProps) => wallReadings(profile, way()[1] === '+' ? 1 : -1),
    depthMetres: () => depth() ?? Math.max(0, ground() - (dug()?.formationLevelMetres ?? ground())),
    setDepth,
    sinceEpochMs,
    setSince,
    sentences: (): readonly string[] => {
      const [stage, found] = [dug(), recorded()]
      return [
        ...(depth() === null && stage
          ? [
              `Depth: from ground at ${formatValue(ground(), 1)} m to ${formatValue(stage.formationLevelMetres, 1)} m, the level of “${stage.name}”${(stage.endsAt ?? Number.POSITIVE_INFINITY) > (clockEpochMs() ?? 0) ? ', which is reached by its end only: while it lasts, state what is dug' : ''}.`,
            ]
          : []),
        ...(found === null
          ? ['The bearing of its A axis is not recorded: state which way is into the dig.']
          : found.askewDegrees > 10 && stated() === null
            ? [
                `Its axis points ${formatValue(found.askewDegrees, 0)}° away from straight into the dig; the deflection along it is shown as it is.`,
              ]
            : []),
      ]
    },
  }
}
