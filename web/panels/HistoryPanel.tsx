export function HistoryPanel() {
  return <p class="waiting">…</p>
}
