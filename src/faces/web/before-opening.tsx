import { beforeOpening } from "../../standards/before-opening";

/** The page that is read once before the case is opened, and signed on the safety card. */
export const BeforeOpening = ({ safetyCard }: { readonly safetyCard: string }) => (
  <main className="before-opening">
    <h1>Before you open the case</h1>
    {beforeOpening.map((b) => (
      <section key={b.id}>
        <h2>{b.title}</h2>
        <p>{b.says}</p>
      </section>
    ))}
    <p>
      Read it once, then sign it on the <a href={safetyCard}>safety card</a>. Local code and licensed practice prevail.
    </p>
  </main>
);
