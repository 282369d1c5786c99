package web

import (
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

const quadAt = "/jobs/0412/quad/"

// four are readings of one kind as pairs of a form.
func fourOf(leaf string, v ...string) []string {
	var out []string
	for i, c := range []string{"FL", "FR", "RL", "RR"} {
		out = append(out, "corners."+c+"."+leaf, v[i])
	}
	return out
}

func TestEveryQuadStandsFrontUp(t *testing.T) {
	s := newShop(t)
	s.sign()
	for _, q := range rounds {
		a := s.get(quadAt + q.Key)
		var order []string
		a.Find(".quadset.big input[type=text]").Each(func(_ int, b *sel) { order = append(order, b.AttrOr("name", "")) })
		want := "corners.FL.* corners.FR.* corners.RL.* corners.RR.*"
		if got := strings.Join(order, " "); a.Status != http.StatusOK || got != strings.ReplaceAll(want, "*", q.Leaf) {
			t.Errorf("%s: status %d, boxes %q", q.Key, a.Status, got)
		}
		if n := a.Find(".quadset.big .u").Length(); n != 4 {
			t.Errorf("%s: %d units in the boxes, expected one a box", q.Key, n)
		}
	}
	if a := s.get(quadAt + "colour"); a.Status != http.StatusNotFound {
		t.Errorf("what is not read at corners: status %d, expected 404", a.Status)
	}
	s.want(s.get("/jobs/0412/record/weights"), `a[href="/jobs/0412/quad/weight"]`, "large keys")
	s.want(s.get("/jobs/0412/survey?way=walk&at=corners.FL.weight"), `.quadset a[href="/jobs/0412/quad/weight"]`, "large keys")
}

func TestHalfAQuadIsKeptAndWhatIsEmptyStaysEmpty(t *testing.T) {
	s := newShop(t)
	s.sign()
	pairs := append([]string{":base", "1", ":tool", "i1"}, fourOf("groundToBody", "231", "232", "", "")...)
	if a := s.post(quadAt+"ground-to-body", pairs...); a.Status != http.StatusOK || a.URL.Path != quadAt+"ground-to-body" {
		t.Fatalf("status %d at %s", a.Status, a.URL)
	}
	c := s.record("0412").Corners
	if c.FL.GroundToBody.Value != "231 mm" || c.FR.GroundToBody.Value != "232 mm" || c.FL.GroundToBody.With != "i1" || c.FL.GroundToBody.By != "T. Marrow" {
		t.Errorf("kept: %+v, %+v", c.FL.GroundToBody, c.FR.GroundToBody)
	}
	if !c.RL.GroundToBody.IsZero() || !c.RR.GroundToBody.IsZero() {
		t.Errorf("what was empty became %+v, %+v", c.RL.GroundToBody, c.RR.GroundToBody)
	}
	if c.FL.HubToArch.Value != "360 mm" {
		t.Errorf("hub to arch became %q", c.FL.HubToArch.Value)
	}
}

func TestExchangedReadingsChangePlacesWithOneTap(t *testing.T) {
	s := newShop(t)
	s.sign()
	typed := append([]string{":base", "1"}, fourOf("weight", "234", "235", "276", "277")...)
	a := s.post(quadAt+"weight", typed...)
	if a.Status != http.StatusUnprocessableEntity {
		t.Fatalf("status %d, expected a question", a.Status)
	}
	s.want(a, ".errs .err", "front and rear look exchanged")
	b := a.Find(`button[name=":swap"]`)
	if b.Length() != 1 || b.Text() != "Front and rear were exchanged" {
		t.Fatalf("the answers are %q", b.Text())
	}
	if got := a.Find(`input[name="corners.FL.weight"]`).AttrOr("value", ""); got != "234 kg" {
		t.Errorf("the box holds %q, expected what was typed", got)
	}
	if a = s.post(quadAt+"weight", append(typed, ":swap", b.AttrOr("value", ""))...); a.Status != http.StatusOK {
		t.Fatalf("after the answer: status %d", a.Status)
	}
	c := s.record("0412").Corners
	if got := c.FL.Weight.Value + c.FR.Weight.Value + c.RL.Weight.Value + c.RR.Weight.Value; got != "276 kg277 kg234 kg235 kg" {
		t.Errorf("kept %s", got)
	}
}

func TestScenario8IsAskedAtTheQuad(t *testing.T) {
	s := newShop(t)
	s.sign()
	typed := append([]string{":base", "1"}, fourOf("groundToBody", "640", "641", "632", "645")...)
	a := s.post(quadAt+"ground-to-body", typed...)
	if a.Status != http.StatusUnprocessableEntity || len(s.m.revs["0412"]) != 1 {
		t.Fatalf("status %d with %d revisions, expected a question and nothing saved", a.Status, len(s.m.revs["0412"]))
	}
	s.want(a, ".errs .err", "No straight body on a level floor stands so")
	if a = s.post(quadAt+"ground-to-body", append(typed, ":open", "corners.FL.groundToBody")...); a.Status != http.StatusOK || s.record("0412").Corners.RR.GroundToBody.Value != "645 mm" {
		t.Errorf("they do stand so: status %d, RR %q", a.Status, s.record("0412").Corners.RR.GroundToBody.Value)
	}
}

func TestScenario7IsAskedAtTheQuad(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.post(quadAt+"hub-to-arch", append([]string{":base", "1"}, fourOf("hubToArch", "360", "361", "640", "359")...)...)
	at := `[id="e-corners.RL.hubToArch"]`
	s.want(a, at+" .err", "RL, hub to arch, 640 mm.")
	s.want(a, at+" .err", "281")
	s.want(a, at+" .err", "ground to arch")
	s.want(a, at+" button[name=':answer']", "359 mm")
}

func TestAQuadIsTypedWithLargeKeysAndReadBack(t *testing.T) {
	s := newShop(t)
	ctx := tab(t, s)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+quadAt+"weight")); err != nil {
		t.Fatal(err)
	}
	run := func(js string) string {
		t.Helper()
		out, err := chromedp.Run(ctx, chromedp.Evaluate[string](js))
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	if got := run(`document.querySelector("[data-aloud]").getAttribute("aria-pressed") + document.querySelector("[data-aloud]").hidden`); got != "falsefalse" {
		t.Errorf("read-back is pressed and hidden %s, expected off and there", got)
	}
	got := run(`(() => { globalThis.heard = []; speechSynthesis.speak = u => heard.push(u.text);
 const pad = k => [...document.querySelectorAll(".lk-pad button")].find(b => b.textContent === k).click();
 const all = [...document.querySelectorAll(".quadset input")];
 for (const b of all) b.value = "";
 all[0].focus(); all[0].blur();
 for (const k of ["2", "7", "6", "next box"]) pad(k);
 document.querySelector("[data-aloud]").click();
 for (const k of ["2", "7", "5", ".", "5", "next box", "5", "1", "6", "next box"]) pad(k);
 all[2].value = "516 lb"; all[2].dispatchEvent(new Event("change", { bubbles: true }));
 return all.map(b => b.value).join("|") + " / " + heard.join("|") + " / " + localStorage.getItem("jounce.aloud"); })()`)
	if want := "276|275.5|516 lb| / Read back aloud|FR 275.5 kilograms|RL 516 kilograms|RL 516 lb / 1"; got != want {
		t.Errorf("typed and heard\n%s, expected\n%s", got, want)
	}
	sizes := run(`[...document.querySelectorAll(".lk-pad button, .qp .keepbar .act")].map(e => e.getBoundingClientRect().height).filter(h => h < 76).join(" ")`)
	if sizes != "" {
		t.Errorf("keys lower than 76 px: %s", sizes)
	}
	for _, w := range []int64{320, 360, 820, 1280, 1600} {
		for _, q := range rounds {
			look(t, ctx, s, quadAt+q.Key, w, "quad-"+q.Key)
		}
	}
}
