import { createSignal, Show } from 'solid-js'
import { isAuditReadable } from '../../state/audit-readable.ts'
import { reportTrouble } from '../../state/notices.ts'
import { Later } from '../../ui/Later.tsx'
import type { AuditedRecords } from './HistoryList.tsx'
import './record-history.css'

/**
 * Who changed the records that it stands beside, when, why and how, fetched when it is opened. Nothing at all for who
 * may not read that.
 */
export function RecordHistory(props: { of: string; records: readonly AuditedRecords[] }) {
  const [isOpen, setOpen] = createSignal(false)
  return (
    <Show when={isAuditReadable() && props.records.some(({ keys }) => keys.length > 0)}>
      <details class="record-history" onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>History of {props.of}</summary>
        <Later
          when={isOpen()}
          load={async () => {
            const { HistoryList } = await import('./HistoryList.tsx')
            return () => <HistoryList of={props.of} records={props.records} isWanted={isOpen()} />
          }}
          waiting="Asking for the history …"
          failed={(cause) => reportTrouble({ cause })}
        />
      </details>
    </Show>
  )
}
