// The program's own drawing: an inside corner of a room from above. One base board runs through to the wall; the other is
// coped over its face.

export function CornerDrawing() {
  return (
    <svg className="corner-drawing" viewBox="6 6 109 85" aria-hidden="true">
      <path className="corner-wall" d="M6 6H114V24H24V90H6z" />
      <path className="corner-through" d="M24 24H114V36H24z" />
      <path className="corner-coped" d="M24 36H30C31 39 32.5 40.5 36 41V90H24z" />
      <path className="corner-line" d="M24 36H30C31 39 32.5 40.5 36 41" />
      <circle className="corner-ring" cx="62" cy="62" r="11" />
      <text className="corner-number" x="62" y="66.5" textAnchor="middle">
        1
      </text>
      <path className="corner-leader" d="M53 55L39 43" />
    </svg>
  );
}
