import { WhereAlertsGo } from './WhereAlertsGo.tsx'

/** The same over the page, from where one is signed in. */
export function WhereAlertsGoSheet(props: { closed: () => void }) {
  return (
    <dialog
      class="key-sheet where-alerts-go-sheet"
      aria-label="Where alerts go"
      ref={(dialog) => queueMicrotask(() => dialog.isConnected && dialog.showModal())}
      onClose={() => props.closed()}
    >
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <h2>Where alerts go</h2>
      <WhereAlertsGo />
    </dialog>
  )
}
