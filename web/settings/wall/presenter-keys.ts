/** What a key asks of a meeting on the wall. */
export type PresenterStep = 'on' | 'back' | 'first' | 'last' | 'dark' | 'follow' | 'clock' | 'full' | 'leave'

/**
 * What a pressed key means: those that common presenters send (page up and down, arrows, space, B, full stop) and a
 * few letters. Null: it is not ours; F5, which some send to begin, reloads the page as ever.
 */
export function presenterStep(
  pressed: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>,
): PresenterStep | null {
  if (pressed.ctrlKey || pressed.metaKey || pressed.altKey) return null
  if (pressed.key === ' ') return pressed.shiftKey ? 'back' : 'on'
  return steps[pressed.key] ?? null
}

const steps: Readonly<Record<string, PresenterStep>> = {
  PageDown: 'on',
  ArrowRight: 'on',
  ArrowDown: 'on',
  PageUp: 'back',
  ArrowLeft: 'back',
  ArrowUp: 'back',
  Home: 'first',
  End: 'last',
  b: 'dark',
  B: 'dark',
  '.': 'dark',
  p: 'follow',
  P: 'follow',
  k: 'clock',
  K: 'clock',
  f: 'full',
  F: 'full',
  Escape: 'leave',
}

/** Keys that a control under the focus needs itself: a button its space, a slider and a list their arrows too; never page keys. */
export function belongsToControl(key: string, target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false
  if (target.closest('dialog[open]')) return true
  const control = target.closest('button, a[href], input, select, summary')
  if (!control) return false
  if (key === ' ' || key === 'Enter') return true
  return control.matches('input, select') && /^(Arrow|Home|End)/.test(key)
}
