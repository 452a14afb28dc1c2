// The diary read back by ical.js (a reader of RFC 5545 and RFC 7265 that is not ours), and the
// rules of RFC 5545 that it forgives: line ends, lengths, order.
import { bytes, check, finish, names, text, tool } from './outside.mjs';

const ICAL = tool('ical.js').default ?? tool('ical.js');

for (const name of names('.ics')) {
  const whole = text(name);
  if (name === 'tiny.ics') {
    check('no start, no calendar', whole === '');
    continue;
  }
  const lines = whole.split('\r\n');
  check(`${name}: every line ends with CR LF`, lines.pop() === '' && !lines.some((l) => /[\r\n]/.test(l)));
  check(`${name}: at most 75 octets a line`, lines.every((l) => Buffer.byteLength(l) <= 75));
  check(`${name}: no letter is cut`, !whole.includes('\uFFFD') || bytes(name).includes(Buffer.from('\uFFFD')));

  const calendar = new ICAL.Component(ICAL.parse(whole));
  const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
  check(`${name}: it has events`, events.length > 5, events.length);
  const uids = new Set(events.map((event) => event.uid));
  check(`${name}: every event has its own name`, uids.size === events.length);
  for (const event of events) {
    check(`${name}: times are UTC`, event.startDate.zone === ICAL.Timezone.utcTimezone);
    check(`${name}: it ends after it starts`, event.endDate.compare(event.startDate) > 0, event.summary);
    check(`${name}: it has a stamp`, event.component.getFirstPropertyValue('dtstamp') !== null);
  }
  // The alarm is the last thing of its event: nothing but the ends follows.
  check(`${name}: alarms come last`, !/END:VALARM\r\n(?!END:VEVENT|BEGIN:VALARM)/.test(whole));
  const alarms = events.flatMap((event) => event.component.getAllSubcomponents('valarm'));
  check(`${name}: things to do ring`, alarms.length >= 4);
  const summaries = events.map((event) => event.summary).join('\n');
  for (const needed of ['turn up', 'heat off', 'may be unloaded']) {
    check(`${name}: "${needed}" is in the diary`, summaries.includes(needed));
  }
}

const everyday = new ICAL.Component(ICAL.parse(text('everyday.ics')));
const first = everyday.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one))
  .find((event) => event.summary.includes('light or switch on'));
check('the start is the planned one', first.startDate.toUnixTime() === 1764052200, first.startDate.toString());
finish();
