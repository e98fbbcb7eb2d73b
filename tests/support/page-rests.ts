import type { Page } from 'playwright-core'

/** By these words the page says that it waits for something. */
const awaited = 'Fetching|Asking for|being (worked out|fetched|drawn|opened)|Working out|starting it'
const restMs = 200

/** How long to wait at most, for a page that goes on changing and for one that says that it waits. */
interface Patience {
  readonly restlessMs: number
  readonly awaitedMs: number
}

/**
 * Waits until nothing of a page has changed for a fifth of a second, no colour of it fades and its sheet or wall does not
 * say that it waits for something. What tells how time goes by never rests, and a sheet may say in passing what is being
 * worked out: after so long either is taken as it is.
 */
export function pageRests(
  page: Page,
  { restlessMs, awaitedMs }: Patience = { restlessMs: 4000, awaitedMs: 20_000 },
): Promise<void> {
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
      const spoken = new RegExp(words)
      // What a closed part would say once it is opened is awaited by nobody.
      const saysToReader = (of: Element): boolean => {
        if (!spoken.test(of.textContent ?? '')) return false
        const inner = [...of.children].filter((one) => spoken.test(one.textContent ?? ''))
        return inner.length > 0 ? inner.some(saysToReader) : of.checkVisibility()
      }
      const isAwaiting = () =>
        [...document.querySelectorAll('[role=tabpanel], .wall')].slice(0, 1).some(saysToReader)
      for (;;) {
        const now = performance.now()
        if (isAwaiting() && now - begun < mostAwaited) awaitedUntil = now
        if (awaitedUntil !== now && (!isRestless() || now - awaitedUntil > mostRestless)) break
        await new Promise((done) => setTimeout(done, 25))
      }
      watch.disconnect()
    },
    [awaited, restMs, restlessMs, awaitedMs] as const,
  )
}
