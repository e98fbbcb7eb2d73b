import { projectOntoSection } from '#domain/geometry/section-line.ts'
import { formatValue } from '../../ui/format-value.ts'
import { box, line, type Mark } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { offsetText } from './hole-marks.ts'
import type { SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

/** Pumped wells near the line with their screens; one whose screen is not recorded is drawn at the ground only. */
export function wellSectionMarks(props: SectionProps, layout: SectionLayout, wanted: WantedLabel[]): Mark[] {
  const ground = props.groundLevelMetres
  const places = props.wells.map((well) => ({ ...well, levelMetres: ground }))
  const half = layout.fontPixels * 0.4
  return projectOntoSection(props.line, places, props.offsetLimitMetres).flatMap((on, at): Mark[] => {
    const well = props.wells[at]
    if (!on || !well) return []
    const x = layout.x(on.chainageMetres)
    const { screenTopLevelMetres: top, screenBaseLevelMetres: base } = well
    const foot = base ?? top ?? ground - 1
    wanted.push({
      x,
      y: layout.y(ground) + layout.fontPixels * 1.2,
      text: on.distanceMetres > 0.5 ? `${well.text}, ${offsetText(on.offsetMetres)}` : well.text,
      className: 'works-name',
      clearPixels: half + 2,
      weight: 9,
    })
    const says = `Well ${well.text}${top !== null && base !== null ? `, screen from ${formatValue(top, 1)} down to ${formatValue(base, 1)} m` : ', screen not recorded'}`
    return [
      line('well', x, layout.y(ground), x, layout.y(top ?? foot)),
      ...(top !== null && base !== null
        ? [box('well-screen', [x - half, layout.y(top), x + half, layout.y(base)], says)]
        : []),
    ]
  })
}
