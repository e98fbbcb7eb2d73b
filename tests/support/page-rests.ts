import type { Page } from 'playwright-core'

/** By these words the page says that it waits for something. */
const awaited = 'Fetching|Asking for|being (worked out|fetched|drawn|opened)|Working out|starting it'
const restMs = 200
const mostRestlessMs = 4000
const mostAwaitedMs = 20_000

/**
 * Waits until nothing of a page has changed for a fifth of a second, no colour of it fades and its sheet or wall does not
 * say that it waits for something. What tells how time goes by never rests: after 4 s it is taken as it is, and what
 * still waits after 20 s too.
 */
export function pageRests(page: Page): Promise<void> {
  return page.evaluate(
    async ([words, rest, mostRestless, mostAwaited]) => {
      const frame = () => new Promise(requestAnimationFrame)
      // What a new size or a new address asks for is begun by then.
      await frame()
      await frame()
      const begun = performance.now()
      let changedAt = begun
      const watch = new MutationObserver(() => {
        changedAt = performance.now()
      })
      watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true })
      let awaitedUntil = begun
      const isRestless = () =>
        performance.now() - changedAt < rest ||
        document.getAnimations().some(({ playState }) => playState === 'running')
      const isAwaiting = () =>
        new RegExp(words).test(document.querySelector('[role=tabpanel], .wall')?.textContent ?? '')
      for (;;) {
        const now = performance.now()
        if (isAwaiting() && now - begun < mostAwaited) awaitedUntil = now
        if (awaitedUntil !== now && (!isRestless() || now - awaitedUntil > mostRestless)) break
        await new Promise((done) => setTimeout(done, 25))
      }
      watch.disconnect()
    },
    [awaited, restMs, mostRestlessMs, mostAwaitedMs] as const,
  )
}
