import type { Standing } from '../../ui/state-scale.ts'
import { standingName } from '../../ui/state-scale.ts'
import { box, line, type Mark, path } from '../marks/mark.ts'
import { standingMark } from '../marks/standing-marks.ts'
import { joinedStrata, stratumNames } from './hole-marks.ts'
import type { SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'
import { standsAt } from './works-marks.ts'

/** A sign of the section as it is drawn, in a room of 34 by 20 pixels, and what it means. */
export interface KeyEntry {
  readonly marks: readonly Mark[]
  readonly means: string
}

const across = (className: string): Mark => line(className, 2, 10, 32, 10)

/** What the signs that this section shows mean; signs that it does not show are left out. */
export function sectionKey(props: SectionProps, layout: SectionLayout): readonly KeyEntry[] {
  const entries: KeyEntry[] = []
  const add = (shown: boolean, means: string, ...marks: Mark[]) => shown && entries.push({ means, marks })
  const values = layout.points.filter(({ point }) => point.value !== null)
  const joins = joinedStrata(props, layout)
  const exaggerated =
    props.movementExaggeration === 1 ? 'at true scale' : `drawn ${props.movementExaggeration} times larger`
  stratumNames(layout.holes).forEach((name, place) => {
    add(true, `${name}, met in a hole`, box(`stratum stratum-${place % 5}`, [10, 2, 24, 18]))
  })
  const justified = joins.some((join) => join.justified)
  add(justified, 'layer taken as straight between holes', across('between-holes joined'))
  const guessed = joins.some((join) => !join.justified)
  add(guessed, 'layer guessed between holes too far apart', across('between-holes'))
  const offLine = layout.holes.some(({ collar }) => collar.distanceMetres > 0.5)
  const onLine = layout.holes.some(({ collar }) => collar.distanceMetres <= 0.5)
  add(onLine, 'hole on the line', across('hole'))
  add(offLine, 'hole brought onto the line from aside, its offset beside its name', across('hole projected'))
  const toCome = layout.cuts.some(
    ({ works }) =>
      !standsAt(works, props.clockEpochMs) &&
      works.fromEpochMs !== null &&
      works.fromEpochMs > props.clockEpochMs,
  )
  add(toCome, 'works to come', box('works to-come', [4, 3, 30, 17]))
  const settled = values.some(({ point }) => point.measure === 'settlement')
  add(settled, `settlement, ${exaggerated}`, across('settlement'))
  add(props.shapes.length > 0, `deflection of a casing, ${exaggerated}`, across('shape'))
  const pressures = values.filter(({ point }) => point.measure === 'pore-pressure' && point.unit === 'kPa')
  add(
    pressures.length > 0,
    'level to which water would rise at a tip',
    path('water-mark', 'M11 4h12L17 12ZM9 12h16'),
  )
  add(pressures.length > 1, 'piezometric line of one layer, taken as straight', across('water-line'))
  for (const standing of new Set(layout.points.map(({ point }) => point.standing)))
    entries.push({ marks: [standingSign(standing, props.levelCount)], means: standingName(standing, []) })
  return entries
}

const standingSign = (standing: Standing, levels: number): Mark =>
  standingMark(17, 10, 7, standing, levels, null)
