import { focusPlan, focusRegister } from '../settings/listen-for-keys.ts'
import { openSheet } from '../state/sheet.ts'

/** First in the order of focus: straight to the plan, the register or the clock. */
export function SkipLinks() {
  const to = (go: () => void) => (event: MouseEvent) => {
    event.preventDefault()
    go()
  }
  return (
    <nav class="skip-links" aria-label="Skip to">
      <a href="#plan" onClick={to(focusPlan)}>
        To the plan
      </a>
      <a
        href="#sheet"
        onClick={to(() => {
          openSheet('register')
          focusRegister()
        })}
      >
        To the register
      </a>
      <a href="#clock" onClick={to(() => document.querySelector<HTMLElement>('.clock-range')?.focus())}>
        To the clock
      </a>
    </nav>
  )
}
