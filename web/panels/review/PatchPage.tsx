export function PatchPage() {
  return <p>…</p>
}
