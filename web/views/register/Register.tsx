import { createMemo, createSignal, onCleanup, Show } from 'solid-js'
import { arrivalWords } from '../../panels/describe-point.ts'
import { alertsAtClock } from '../../state/alerts.ts'
import {
  compared,
  mostCompared,
  pickCompared,
  pickingCompared,
  toggleCompared,
} from '../../state/compared.ts'
import { contradictionRemark } from '../../state/contradicted-verdicts.ts'
import { filters } from '../../state/filters.ts'
import { selectedSeries, selectPoint } from '../../state/selection.ts'
import { laterAtClock, statesAtClock } from '../../state/series-states.ts'
import { openSheet } from '../../state/sheet.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { palette } from '../../state/theme.ts'
import { sync } from '../../ui/sync.ts'
import { createRegister } from './create-register.ts'
import { filterRows, type RegisterOrder, registerRows, sortRows } from './register-rows.ts'

/** Register of measuring points: the plan's table, with the plan's filters and selection. */
export function Register() {
  const [order, setOrder] = createSignal<RegisterOrder>({ column: 'standing', descending: true })
  const all = createMemo(() => {
    const document = siteDocument()
    if (!document) return []
    return registerRows(
      document,
      statesAtClock()?.states ?? null,
      clockEpochMs() ?? 0,
      alertsAtClock()?.alerts ?? null,
      (series) => {
        const later = laterAtClock()?.get(series)
        return later ? arrivalWords(later, statesAtClock()?.states.get(series), 'short') : ''
      },
      (series) => contradictionRemark([series]),
    )
  })
  const rows = createMemo(() => sortRows(filterRows(all(), filters()), order()))
  const selected = createMemo(
    () => new Set(pickingCompared() ? compared() : selectedSeries().map((series) => series.id)),
  )
  const props = () => ({
    rows: rows(),
    order: order(),
    selected: selected(),
    levelNames: siteDocument()?.facts.levelNames ?? [],
    atEpochMs: alertsAtClock()?.atEpochMs ?? clockEpochMs() ?? 0,
    palette: palette(),
  })
  const mount = (element: HTMLElement) => {
    const register = createRegister(element, props(), {
      select: (row) => (pickingCompared() ? toggleCompared(row.id) : selectPoint(row.point, row.measure)),
      sortBy: (column) =>
        setOrder((now) => ({ column, descending: now.column === column ? !now.descending : false })),
    })
    sync(props, register.update)
    onCleanup(register.destroy)
  }
  return (
    <>
      <p class="register-count">
        {rows().length} of {all().length} series
        {(siteDocument()?.series.length ?? 0) > all().length
          ? '; those of the loggers themselves stand under Network'
          : ''}
      </p>
      <Show when={pickingCompared()}>
        <p class="register-picking">
          {compared().length} of {mostCompared} series chosen to compare: Enter or a tap takes one in or out.{' '}
          <button type="button" onClick={() => openSheet('review')}>
            Compare them
          </button>{' '}
          <button type="button" onClick={() => pickCompared(false)}>
            Stop choosing
          </button>
        </p>
      </Show>
      <div class="register-host" ref={mount} />
    </>
  )
}
