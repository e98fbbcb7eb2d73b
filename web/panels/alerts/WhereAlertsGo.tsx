import { Show } from 'solid-js'
import { mayAt } from '#domain/access/membership.ts'
import { me, signedInName } from '../../state/own-account.ts'
import { siteDocument } from '../../state/site-document.ts'
import { OwnDevices } from './OwnDevices.tsx'
import { SiteWebhooks } from './SiteWebhooks.tsx'
import './where-alerts-go.css'

/** Where alerts go: one's own devices; for administrators of the site, its mail and webhooks too. */
export function WhereAlertsGo() {
  const administered = () => {
    const facts = siteDocument()?.facts
    return facts && mayAt(me()?.person?.memberships ?? [], facts.id, 'administer') ? facts : null
  }
  return (
    <div class="where-alerts-go">
      <Show
        when={signedInName() !== null}
        fallback={<p>Where alerts go is set up by people who are signed in.</p>}
      >
        <OwnDevices />
      </Show>
      <Show when={administered()}>
        {(facts) => <SiteWebhooks site={facts().id} siteName={facts().name} />}
      </Show>
    </div>
  )
}
