import { formatAge } from '../../ui/format-instant.ts'
import { formatShare, formatValue, withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { levelOf, standingName } from '../../ui/state-scale.ts'
import { made } from './made-element.ts'
import { alertCell, pointCell, textCell } from './register-cells.ts'
import type { RegisterProps } from './register-props.ts'
import type { RegisterRow } from './register-rows.ts'

/** One row as it stands in the page; the active one is where Tab comes to. */
export function registerRow(
  row: RegisterRow,
  props: RegisterProps,
  place: number,
  isActive: boolean,
): HTMLElement {
  const line = made('tr', '')
  line.dataset.row = String(place)
  line.tabIndex = isActive ? 0 : -1
  line.setAttribute('aria-rowindex', String(place + 2))
  line.setAttribute('aria-selected', String(props.selected.has(row.id)))
  const late = row.silent || row.standing === 'out-of-use'
  const value = formatValue(row.value, row.decimals)
  line.append(
    pointCell(row, props),
    textCell('measure', measureNames[row.measure]),
    textCell('value', row.value === null ? '–' : withUnit(value, row.unit), late),
    textCell('standing', stateText(row, props.levelNames), false, levelOf(row.standing) > 0),
    alertCell(row, props),
    textCell('share', late ? '' : formatShare(row.share)),
    textCell('age', row.ageMs === null ? 'no reading' : formatAge(row.ageMs), false, late),
    textCell('logger', row.logger),
  )
  return line
}

function stateText(row: RegisterRow, levelNames: readonly string[]): string {
  const name = standingName(row.standing, levelNames)
  const standing = row.silent && row.standing !== 'late' ? `${name}, no current data` : name
  return [standing, row.later, row.contradicted, ...row.marks].filter((part) => part !== '').join('; ')
}
