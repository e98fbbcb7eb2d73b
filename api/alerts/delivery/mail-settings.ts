import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'

/** A mailbox as a header names it. */
export interface MailAddress {
  readonly name: string
  readonly address: string
}

/** The server that takes mail from here. Its password is in no message, report or answer. */
export interface MailSettings {
  readonly host: string
  readonly port: number
  /** TLS from the first byte (smtps). */
  readonly isEncryptedAtOnce: boolean
  /** Nothing is sent before the connection is encrypted. */
  readonly needsTls: boolean
  readonly user: string | null
  readonly password: string | null
  readonly from: MailAddress
}

/**
 * Mail settings from the environment; null: mail is not set up. TLS is needed unless it is set to `no`, and always where
 * there is a password; a server on this very machine needs none. No issue repeats the URL, which may hold a password.
 */
export function readMailSettings(
  environment: Readonly<Record<string, string | undefined>>,
): Outcome<MailSettings | null> {
  const { STILLGROUND_SMTP_URL: urlText, STILLGROUND_MAIL_FROM: fromText } = environment
  const tlsText = environment.STILLGROUND_SMTP_TLS
  const issues: Issue[] = []
  if (tlsText !== undefined && tlsText !== 'yes' && tlsText !== 'no')
    issues.push({
      code: 'yes-or-no-expected',
      value: tlsText,
      message: `STILLGROUND_SMTP_TLS is "${tlsText}"; yes or no is expected.`,
    })
  if (urlText === undefined)
    return issues.length > 0
      ? reject(...issues)
      : fromText === undefined
        ? accept(null)
        : reject({
            code: 'smtp-url-expected',
            message:
              'STILLGROUND_MAIL_FROM is set, STILLGROUND_SMTP_URL is not: give the mail server as smtp://host:587.',
          })
  const url = readSmtpUrl(urlText)
  const from = readMailbox(fromText ?? '')
  if (url === null)
    issues.push({
      code: 'smtp-url-unreadable',
      message:
        'STILLGROUND_SMTP_URL is no address of a mail server. smtp://host:587 or smtps://host is expected, with name:password@ before the host where the server asks for them, letters that mean something in an address written as %40 and the like.',
    })
  if (from === null)
    issues.push({
      code: 'mail-from-expected',
      ...(fromText !== undefined && { value: fromText }),
      message:
        'STILLGROUND_MAIL_FROM is the mailbox from which alerts come: a@b.example, or Name <a@b.example>.',
    })
  if (url === null || from === null || issues.length > 0) return reject(...issues)
  const isHere = ['127.0.0.1', '::1', 'localhost'].includes(url.host)
  return accept({
    ...url,
    needsTls:
      !url.isEncryptedAtOnce && (url.password !== null || (tlsText ?? (isHere ? 'no' : 'yes')) === 'yes'),
    from,
  })
}

function readSmtpUrl(text: string): Omit<MailSettings, 'needsTls' | 'from'> | null {
  try {
    const { protocol, hostname, port, username, password, pathname, search, hash } = new URL(text)
    const isEncryptedAtOnce = protocol === 'smtps:'
    if (!isEncryptedAtOnce && protocol !== 'smtp:') return null
    if (hostname === '' || !['', '/'].includes(pathname) || search !== '' || hash !== '') return null
    return {
      host: hostname.replace(/^\[(.*)\]$/, '$1'),
      port: port === '' ? (isEncryptedAtOnce ? 465 : 587) : Number(port),
      isEncryptedAtOnce,
      user: username === '' ? null : decodeURIComponent(username),
      password: password === '' ? null : decodeURIComponent(password),
    }
  } catch {
    return null
  }
}

function readMailbox(text: string): MailAddress | null {
  const named = /^([^<>"\p{C}]*)<([^<>]+)>$/u.exec(text.trim())
  const address = named?.[2] ?? text.trim()
  return isMailAddress(address) ? { name: named?.[1]?.trim() ?? '', address } : null
}

/** One mailbox as an envelope takes it: no list, no name, nothing that could begin another header or command. */
export const isMailAddress = (text: string): boolean =>
  text.length <= 254 &&
  /^[\p{L}\p{N}.!#$%&'*+/=?^_`{|}~-]{1,64}@[\p{L}\p{N}](?:[\p{L}\p{N}.-]*[\p{L}\p{N}])?$/u.test(text)
