export interface PlanControls {
  showBearing(bearingDegrees: number): void
  /** Shows the strip of the tool in hand with its number of corners, or takes it away. */
  showDrawing(corners: number | null, of: 'section' | 'obstruction' | 'gateway' | 'patch'): void
  destroy(): void
}

export interface PlanControlActions {
  zoom(steps: number): void
  fit(): void
  faceNorth(): void
  finishLine(): void
  takeBackCorner(): void
  giveUpLine(): void
}

/** Buttons on the plan itself: closer, further, whole site, north up, and the strip of the section tool. */
export function createPlanControls(parent: HTMLElement, actions: PlanControlActions): PlanControls {
  const column = element('div', 'plan-buttons')
  const north = button('', 'Turn north up', actions.faceNorth)
  north.innerHTML =
    '<svg viewBox="0 0 24 24" width="26" height="26" aria-hidden="true"><path d="M12 2l5 13-5-3-5 3z" fill="currentColor"/><path d="M9 22v-5l6 5v-5" fill="none" stroke="currentColor" stroke-width="1.6"/></svg>'
  column.append(
    north,
    button('+', 'Closer', () => actions.zoom(1)),
    button('−', 'Further away', () => actions.zoom(-1)),
    button('⤢', 'Whole site', actions.fit),
  )
  const strip = element('div', 'plan-strip')
  strip.hidden = true
  const sentence = element('span', 'plan-strip-text')
  const finish = button('Finish the line', 'Finish the line', actions.finishLine)
  finish.className = 'primary'
  strip.append(
    sentence,
    finish,
    button('Take back corner', 'Take back corner', actions.takeBackCorner),
    button('Give up', 'Give up what is being drawn', actions.giveUpLine),
  )
  parent.append(column, strip)
  return {
    showBearing(bearingDegrees) {
      north.style.transform = `rotate(${-bearingDegrees}deg)`
    },
    showDrawing(corners, of) {
      strip.hidden = corners === null
      finish.disabled = (corners ?? 0) < (of === 'patch' ? 3 : 2)
      sentence.textContent =
        corners === null || corners === 0
          ? {
              section: 'Tap where the section begins.',
              obstruction: 'Tap where the obstruction begins.',
              gateway: 'Tap where the gateway would stand.',
              patch: 'Tap the first corner of the patch.',
            }[of]
          : corners === 1
            ? 'Tap where it goes next.'
            : `${corners} corners. Tap for more, or finish.`
    },
    destroy() {
      column.remove()
      strip.remove()
    },
  }
}

function button(text: string, label: string, act: () => void): HTMLButtonElement {
  const made = document.createElement('button')
  made.type = 'button'
  made.textContent = text
  if (text !== label) made.setAttribute('aria-label', label)
  if (text !== label) made.title = label
  made.addEventListener('click', act)
  return made
}

function element(tag: 'div' | 'span', className: string): HTMLElement {
  const made = document.createElement(tag)
  made.className = className
  return made
}
