/** A section with its leg missing: what a project shows before its route is stated. */
export function EmptySection() {
  return (
    <section className="section-frame empty" aria-label="Section of the route">
      <svg viewBox="0 0 480 120" role="img" aria-label="A house and a car, with nothing between them yet">
        <path className="line" d="M20 84V44l44-26 44 26v40M64 84V62h18v22" />
        <path className="ground" d="M0 84h480" />
        <path className="line" d="M372 80v-12l14-2 12-14h36l14 14 14 2v12z" />
        <circle className="line" cx="392" cy="80" r="7" />
        <circle className="line" cx="444" cy="80" r="7" />
        <path className="line" d="M356 84V52" />
        <path className="run" d="M98 58h16v38h30" />
        <path className="run" d="M330 96h26V62" />
        <path className="missing" d="M144 96h186" />
      </svg>
      <p>
        A leg is missing between panel and car. State the route: as one line, such as{' '}
        <q>35 joists, 41 lawn-trench clay</q>, or leg by leg.
      </p>
    </section>
  );
}
