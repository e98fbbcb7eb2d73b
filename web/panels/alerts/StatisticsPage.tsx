export function StatisticsPage() {
  return <p class="waiting">…</p>
}
