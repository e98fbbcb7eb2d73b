import { describe, expect, it } from 'vitest'
import { belongsToControl, presenterStep } from '../../../../web/settings/wall/presenter-keys.ts'

const pressed = (key: string, more: Partial<KeyboardEvent> = {}) =>
  presenterStep({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more })

describe('keys of a presenter', () => {
  // Common practice of presenters, no published source: page up and down, arrows, space, B or full stop, F5 to begin.
  it.each([
    ['PageDown', 'on'],
    ['ArrowRight', 'on'],
    ['ArrowDown', 'on'],
    [' ', 'on'],
    ['PageUp', 'back'],
    ['ArrowLeft', 'back'],
    ['ArrowUp', 'back'],
    ['Home', 'first'],
    ['End', 'last'],
    ['b', 'dark'],
    ['B', 'dark'],
    ['.', 'dark'],
    ['Escape', 'leave'],
  ])('%s leads %s', (key, step) => expect(pressed(key)).toBe(step))

  it('leaves F5 and what is pressed together with other keys to the browser', () => {
    expect(pressed('F5')).toBeNull()
    expect(pressed('b', { ctrlKey: true })).toBeNull()
    expect(pressed('ArrowLeft', { altKey: true })).toBeNull()
    expect(pressed(' ', { shiftKey: true })).toBe('back')
  })

  it('leaves a control under the focus the keys that it needs', () => {
    document.body.innerHTML =
      '<button id="b"></button><input id="r" type="range"><select id="s"></select><p id="p"></p>'
    const at = (id: string) => document.getElementById(id)
    expect(belongsToControl(' ', at('b'))).toBe(true)
    expect(belongsToControl('ArrowRight', at('b'))).toBe(false)
    expect(belongsToControl('PageDown', at('b'))).toBe(false)
    expect(belongsToControl('ArrowRight', at('r'))).toBe(true)
    expect(belongsToControl('ArrowDown', at('s'))).toBe(true)
    // Whoever has touched the slider still holds the presenter.
    expect(belongsToControl('PageDown', at('r'))).toBe(false)
    expect(belongsToControl('Escape', at('r'))).toBe(false)
    expect(belongsToControl('ArrowRight', at('p'))).toBe(false)
  })
})
