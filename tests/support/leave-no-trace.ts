import { afterAll, vi } from 'vitest'

// What a file puts into the process and the document that it shares with others must not reach the next one.
afterAll(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
  vi.unstubAllEnvs()
  // Files that say so run without a document.
  if (typeof document === 'undefined') return
  document.head.replaceChildren()
  document.body.replaceChildren()
  for (const name of document.documentElement.getAttributeNames())
    document.documentElement.removeAttribute(name)
  localStorage.clear()
  sessionStorage.clear()
  history.replaceState(null, '', '/')
})
