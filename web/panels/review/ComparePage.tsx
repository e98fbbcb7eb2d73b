export function ComparePage() {
  return <p>…</p>
}
