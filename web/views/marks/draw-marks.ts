import type { Mark } from './mark.ts'

const svgSpace = 'http://www.w3.org/2000/svg'

/**
 * Makes the children of an SVG element what the marks say. What is there already is changed in place,
 * matched by key where there is one, else by order, so a second call with the same marks does nothing.
 */
export function drawMarks(parent: SVGElement, marks: readonly Mark[]): void {
  const keyed = new Map<string, SVGElement>()
  const plain: SVGElement[] = []
  for (const child of Array.from(parent.children) as SVGElement[]) {
    if (child.tagName === 'title') continue
    const key = child.dataset.key
    if (key) keyed.set(key, child)
    else plain.push(child)
  }
  let place = parent.firstElementChild?.tagName === 'title' ? parent.children[1] : parent.children[0]
  let nextPlain = 0
  for (const mark of marks) {
    let element = mark.key ? keyed.get(mark.key) : plain[nextPlain++]
    if (mark.key) keyed.delete(mark.key)
    if (element && element.tagName !== mark.tag) {
      if (element === place) place = element.nextElementSibling ?? undefined
      element.remove()
      element = undefined
    }
    if (!element) {
      element = document.createElementNS(svgSpace, mark.tag) as SVGElement
      if (mark.key) element.dataset.key = mark.key
    }
    if (element === place) place = element.nextElementSibling ?? undefined
    else parent.insertBefore(element, place ?? null)
    dress(element, mark)
  }
  for (const left of plain.slice(nextPlain)) left.remove()
  for (const left of keyed.values()) left.remove()
}

function dress(element: SVGElement, mark: Mark): void {
  for (const attribute of Array.from(element.attributes))
    if (!(attribute.name in mark.attributes) && attribute.name !== 'data-key')
      element.removeAttribute(attribute.name)
  for (const [name, value] of Object.entries(mark.attributes))
    if (element.getAttribute(name) !== String(value)) element.setAttribute(name, String(value))
  if (mark.text !== undefined) {
    if (element.textContent !== mark.text) element.textContent = mark.text
    return
  }
  const title = element.firstElementChild?.tagName === 'title' ? element.firstElementChild : null
  if (mark.title === undefined) title?.remove()
  else if (title) {
    if (title.textContent !== mark.title) title.textContent = mark.title
  } else {
    const made = document.createElementNS(svgSpace, 'title')
    made.textContent = mark.title
    element.prepend(made)
  }
  drawMarks(element, mark.children ?? [])
}
