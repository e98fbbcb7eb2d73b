import { afterAll, vi } from 'vitest'

// Files that test what the whole page shares: each finds the modules of the page as a page does that opens. Process and
// document are those of the file before, since they take ten times as long to make as most files take to run.
vi.resetModules()

const places: readonly object[] = typeof navigator === 'undefined' ? [globalThis] : [globalThis, navigator]
const mayBeAdded = (place: object, key: string | symbol): boolean =>
  place === globalThis ? /^(indexedDB|IDB|Solid\$\$)/.test(String(key)) : true
const there = places.map((place) => new Set(Reflect.ownKeys(place)))

afterAll(() => {
  vi.restoreAllMocks()
  for (const [at, place] of places.entries())
    for (const key of Reflect.ownKeys(place))
      if (mayBeAdded(place, key) && !there[at]?.has(key)) Reflect.deleteProperty(place, key)
})
