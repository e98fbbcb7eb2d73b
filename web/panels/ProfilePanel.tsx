export function ProfilePanel() {
  return <p class="waiting">…</p>
}
