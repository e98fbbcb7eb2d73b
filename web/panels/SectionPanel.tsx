export function SectionPanel() {
  return <p class="waiting">…</p>
}
