import { For } from 'solid-js'
import { computedNote } from '../../derived/ground/computed-note.ts'
import type { ComputedString } from '../../derived/ground/computed-settlement.ts'
import type { MeasuredAndComputed } from '../../derived/ground/measured-and-computed.ts'
import { formatValue } from '../../ui/format-value.ts'
import { PlainTable } from './PlainTable.tsx'

/** Settlement computed from pore pressures as numbers, beside what was measured. */
export function ComputedTables(props: {
  strings: readonly ComputedString[]
  compared: readonly MeasuredAndComputed[]
}) {
  return (
    <section class="ground-part" aria-label="Computed and measured settlement">
      <h2>Computed and measured</h2>
      <For each={computedNote(props.strings, props.compared)}>{(note) => <p>{note}</p>}</For>
      <PlainTable
        caption="Strings of piezometers, mm"
        headings={['String', 'Computed so far', 'When all excess has gone', 'Why not']}
        rows={props.strings.map(({ location, outcome, partLate }) => [
          location,
          outcome.ok ? formatValue(outcome.value.settlementMm, 1) : '–',
          outcome.ok ? formatValue(outcome.value.finalSettlementMm, 1) : '–',
          outcome.ok
            ? partLate
              ? 'A tip is silent: not on the map.'
              : ''
            : outcome.issues.map(({ message }) => message).join(' '),
        ])}
      />
      <PlainTable
        caption="Levelled points and heads, mm; ± is the standard uncertainty of the measurement"
        headings={['Point', 'Measured', 'Computed', 'Measured less computed', 'Computed by']}
        rows={props.compared.map((one) => [
          one.id,
          `${formatValue(one.measuredMm, 1)} ± ${one.standardUncertaintyMm === null ? 'not known' : formatValue(one.standardUncertaintyMm, 1)}`,
          formatValue(one.computedMm, 1),
          formatValue(one.differenceMm, 1),
          one.computedBy,
        ])}
      />
    </section>
  )
}
