import { focusPlan, focusRegister } from '../settings/listen-for-keys.ts'
import { openSheet } from '../state/sheet.ts'

/** First in the order of focus: straight to the plan, the register or the clock. */
export function SkipLinks() {
  return (
    <nav class="skip-links" aria-label="Skip to">
      <button type="button" onClick={focusPlan}>
        To the plan
      </button>
      <button
        type="button"
        onClick={() => {
          openSheet('register')
          focusRegister()
        }}
      >
        To the register
      </button>
      <button type="button" onClick={() => document.querySelector<HTMLElement>('.clock-range')?.focus()}>
        To the clock
      </button>
    </nav>
  )
}
