/** Day and time as this device's clock has them, of what happens here and not at the site: signing in, links, keys. */
export const dayAndTime = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
