import { createMemo, createRoot } from 'solid-js'
import { type WatchedChannels, watchedChannels } from '../derived/alerts/watched-channels.ts'
import { alertsDocument } from './alerts.ts'
import { siteDocument, stateDocument } from './site-document.ts'

/** What the levels say of the channels they watch, as last heard; null: not known. Never of a past clock. */
export const channelsNow = createRoot(() =>
  createMemo((): WatchedChannels | null => {
    const [document, site, states] = [alertsDocument(), siteDocument(), stateDocument()]
    if (!document || !site) return null
    return watchedChannels(
      document,
      site,
      states && new Map(states.states.map((state) => [state.series, state])),
    )
  }),
)
