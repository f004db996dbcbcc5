// Moves and zooms a strip chart by mouse, wheel and fingers. What a stretch is chosen by is the chart's own drag.
const WHEEL_STEP = 1.0015;

/**
 * @param range () -> [fromS, toS] that is in sight
 * @param whole () -> whether that is all there is
 * @param move (fromS, toS) -> shows that
 */
export function gestures(u, { range, whole, move }) {
  const over = u.over;
  const fingers = new Map();
  const share = (x) => (x - over.getBoundingClientRect().left) / over.clientWidth;
  over.style.touchAction = "pan-y";

  const zoom = (factor, at) => {
    const [from, to] = range();
    const s = from + (to - from) * at;
    move(s - (s - from) * factor, s + (to - s) * factor);
  };
  const shift = (by) => {
    const [from, to] = range();
    move(from + (to - from) * by, to + (to - from) * by);
  };

  over.addEventListener("wheel", (event) => {
    const px = event.deltaMode === 1 ? 16 : 1;
    // Where there is no more to see, the page scrolls as anywhere else.
    if (event.ctrlKey === false && event.deltaY > 0 && whole()) return;
    event.preventDefault();
    if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) shift((event.deltaX * px) / over.clientWidth);
    else zoom(WHEEL_STEP ** (event.deltaY * px), share(event.clientX));
  }, { passive: false });

  over.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || choosing(event, whole())) return;
    over.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, event.clientX);
  });
  over.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (before === undefined) return;
    const others = [...fingers].filter(([id]) => id !== event.pointerId);
    if (others.length) {
      const other = others[0][1];
      const [was, is] = [Math.abs(before - other), Math.abs(event.clientX - other)];
      if (was > 1 && is > 1) zoom(was / is, share((event.clientX + other) / 2));
    } else shift((before - event.clientX) / over.clientWidth);
    fingers.set(event.pointerId, event.clientX);
  });
  for (const end of ["pointerup", "pointercancel"]) over.addEventListener(end, (event) => fingers.delete(event.pointerId));
}

/** A drag of the mouse chooses a stretch where there is nothing to move, and with the shift key. */
export const choosing = (event, whole) => (event.pointerType ?? "mouse") === "mouse" && (event.shiftKey || whole);
