import { createTransport } from 'nodemailer'
import { type AlertMessage, type Attempt, type DeliveryWay, textOf, titleOf } from './delivery-way.ts'
import { isMailAddress, type MailSettings } from './mail-settings.ts'
import { headerId } from './message-id.ts'

interface MailSending {
  /** Null: nobody told the server where mail is taken. */
  readonly settings: MailSettings | null
  /** Scheme and host by which people open the page; null: not known. */
  readonly origin: string | null
  /** How long each step of the exchange may take. */
  readonly patienceMs?: number
}

/** Tells people by mail. Delivered means that the mail server took it, no more. */
export function createMailWay({ settings, origin, patienceMs = 15_000 }: MailSending): DeliveryWay {
  const transport = settings && createTransport(transportOf(settings, patienceMs))
  return {
    name: 'mail',
    async send(message, { name, email }, signal) {
      if (!settings || !transport)
        return [
          {
            outcome: 'not-set-up',
            detail: 'No mail server is set: STILLGROUND_SMTP_URL and STILLGROUND_MAIL_FROM.',
          },
        ]
      if (email === null) return [{ outcome: 'not-set-up', detail: `${name} has no mail address.` }]
      if (!isMailAddress(email))
        return [{ outcome: 'failed', retry: false, detail: `"${oneLine(email)}" is no mail address.` }]
      const limit = AbortSignal.any([signal, AbortSignal.timeout(3 * patienceMs)])
      try {
        const { response } = await transport.sendMail({
          ...mailOf(message, settings, origin),
          to: { name: oneLine(name), address: email },
          signal: limit,
        })
        return [
          {
            outcome: 'delivered',
            detail: `The mail server took it for ${email}: ${cut(response, settings)}`,
          },
        ]
      } catch (failure) {
        return [attemptOf(failure as MailFailure, email, settings, signal)]
      }
    },
  }
}

function transportOf(settings: MailSettings, patienceMs: number) {
  const { host, port, isEncryptedAtOnce, needsTls, user, password } = settings
  return {
    host,
    port,
    secure: isEncryptedAtOnce,
    requireTLS: needsTls,
    ...(user !== null && { auth: { user, pass: password ?? '' } }),
    dnsTimeout: patienceMs,
    connectionTimeout: patienceMs,
    greetingTimeout: patienceMs,
    socketTimeout: patienceMs,
    disableFileAccess: true,
    disableUrlAccess: true,
  }
}

/** Sent again after a lost answer it carries the same Message-ID, by which mail programs know it as the same. */
function mailOf(message: AlertMessage, { from }: MailSettings, origin: string | null) {
  const { id, alert, site, siteName, path, kind, exercise } = message
  const domain = from.address.slice(from.address.lastIndexOf('@') + 1)
  const where = origin === null ? `In the page: ${path}` : `Open it: ${origin}${path}`
  return {
    from: { name: from.name || 'Stillground', address: from.address },
    subject: oneLine(`${titleOf(message)} (${siteName})`).slice(0, 250),
    text: `${textOf(message)}\n\n${where}\n`,
    messageId: `<${headerId(id)}@${domain}>`,
    // Messages about one alert stand together in a mailbox.
    references: `<alert-${headerId(`${site}-${alert}`)}@${domain}>`,
    ...(!exercise && kind !== 'closed' && { priority: 'high' as const }),
    // RFC 3834: an answering machine is not to answer.
    headers: { 'Auto-Submitted': 'auto-generated' },
  }
}

interface MailFailure extends Error {
  readonly code?: string
  readonly responseCode?: number
  readonly response?: string
}

function attemptOf(
  failure: MailFailure,
  email: string,
  settings: MailSettings,
  signal: AbortSignal,
): Attempt {
  const { code, responseCode, response } = failure
  const said = response === undefined ? '' : `: ${cut(response, settings)}`
  const failed = (retry: boolean, detail: string): Attempt => ({ outcome: 'failed', retry, detail })
  if (signal.aborted) return failed(true, 'Stopped before the mail server had taken it.')
  const { host } = settings
  // Before its code: a server that knows no STARTTLS answers 500 to it.
  if (code === 'ETLS')
    return failed(
      true,
      `The connection to the mail server ${host} could not be encrypted, and nothing was sent.`,
    )
  if (code === 'EAUTH' || code === 'ENOAUTH')
    return failed(true, `The mail server does not let this server in${said}`)
  if (responseCode !== undefined && responseCode >= 500 && responseCode !== 503)
    return failed(false, `The mail server refused it for ${email}${said}`)
  if (responseCode !== undefined)
    return failed(true, `The mail server did not take it now for ${email}${said}`)
  if (code === 'ETIMEDOUT' || code === 'EABORT')
    return failed(true, `The mail server ${host} did not answer in time.`)
  return failed(true, `The connection to the mail server ${host} failed: ${cut(failure.message, settings)}`)
}

/** What a server said, in one line, never with the password in it, whatever the server repeats. */
function cut(text: string, { user, password }: MailSettings): string {
  // As it stands in what is sent to sign in: RFC 4616 (PLAIN) has user and password in one.
  const plain = `\0${user ?? ''}\0${password ?? ''}`
  const secrets =
    password === null
      ? []
      : [password, Buffer.from(password).toString('base64'), Buffer.from(plain).toString('base64')]
  return secrets.reduce((said, secret) => said.replaceAll(secret, '…'), oneLine(text)).slice(0, 200)
}

/** Whatever would end a line or not show. */
const oneLine = (text: string): string => text.replaceAll(/[\p{C}\u2028\u2029]+/gu, ' ').trim()
