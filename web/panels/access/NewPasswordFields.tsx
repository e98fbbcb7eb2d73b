import { createUniqueId } from 'solid-js'
import { shortestPassword } from '#domain/access/person-rules.ts'

/** A password that is chosen, typed twice: fields `password` and `again` of the form around them. */
export function NewPasswordFields() {
  const rule = createUniqueId()
  return (
    <>
      <label>
        New password
        <input name="password" type="password" autocomplete="new-password" aria-describedby={rule} required />
      </label>
      <small id={rule}>
        At least {shortestPassword} characters; a few words in a row will do. Not your own name, and none that
        everybody tries.
      </small>
      <label>
        The same password again
        <input name="again" type="password" autocomplete="new-password" required />
      </label>
    </>
  )
}
