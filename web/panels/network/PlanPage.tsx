/** What a network of loggers would do. */
export function PlanPage() {
  return <section class="network-page" aria-label="Plan" />
}
