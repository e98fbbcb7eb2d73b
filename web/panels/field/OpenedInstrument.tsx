import { openFieldPage } from '../../state/field-page.ts'
import { openSheet } from '../../state/sheet.ts'

/** An instrument that was just opened, and what is mostly wanted of one that a person stands at. */
export function OpenedInstrument(props: { instrument: string }) {
  return (
    <div role="status" class="field-choices">
      <p>{props.instrument} is open.</p>
      <button type="button" onClick={() => openSheet('record')}>
        Its record
      </button>
      <button type="button" onClick={() => openFieldPage('reading')}>
        Read it
      </button>
      <button type="button" onClick={() => openFieldPage('note')}>
        Note something
      </button>
    </div>
  )
}
