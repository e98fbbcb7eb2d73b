import { pause, play, playing } from '../state/playback.ts'
import { openSheet, sheetTabs } from '../state/sheet.ts'
import { jumpToPresent, stepClock } from '../state/site-clock.ts'

const hourMs = 3_600_000

/** Keys that work anywhere on the page except while something is being typed. Returns what ends it. */
export function listenForKeys(askForKeys: () => void): () => void {
  const acts: Readonly<Record<string, () => void>> = {
    '?': askForKeys,
    m: focusPlan,
    r: () => {
      openSheet('register')
      focusRegister()
    },
    a: () => {
      openSheet('alerts')
      document.getElementById('tab-alerts')?.focus()
    },
    k: () => (playing() ? pause() : play()),
    j: () => stepClock(-24 * hourMs),
    l: () => stepClock(24 * hourMs),
    J: () => stepClock(-hourMs),
    L: () => stepClock(hourMs),
    p: () => {
      pause()
      jumpToPresent()
    },
  }
  const press = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
    const tab = sheetTabs[Number(event.key) - 1]
    if (tab) openSheet(tab)
    else if (acts[event.key]) acts[event.key]?.()
    else return
    event.preventDefault()
  }
  addEventListener('keydown', press)
  return () => removeEventListener('keydown', press)
}

/** Puts the focus on the plan. */
export function focusPlan(): void {
  document.querySelector<HTMLElement>('.plan-map canvas')?.focus()
}

/** Puts the focus on the register's active row, once it is there. */
export function focusRegister(): void {
  requestAnimationFrame(() =>
    document.querySelector<HTMLElement>('.register tbody tr[tabindex="0"]')?.focus(),
  )
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false
  if (target.closest('dialog[open]')) return true
  return target instanceof HTMLInputElement
    ? !['checkbox', 'range', 'button'].includes(target.type)
    : target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable
}
