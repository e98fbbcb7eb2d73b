/** The password that `NewPasswordFields` were filled with; thrown: it was typed in two ways. */
export function chosenPassword(said: FormData): string {
  const password = String(said.get('password') ?? '')
  if (password !== said.get('again')) throw new Error('The two passwords differ. Type the same one twice.')
  return password
}
