export function DrillsPage() {
  return <p class="waiting">…</p>
}
