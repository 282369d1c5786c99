package web

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"net/textproto"
	"strings"
	"sync"
	"testing"
	"time"

	"jounce/internal/catalog"
	invented "jounce/internal/demo"
	"jounce/internal/job"
)

// shelf keeps attachments in memory.
type shelf struct {
	mu    sync.Mutex
	files map[string][]byte
}

func (s *shelf) Put(_ context.Context, id, name, media string, content io.Reader, limit int64) (job.Attachment, error) {
	b, err := io.ReadAll(io.LimitReader(content, limit+1))
	if err != nil || int64(len(b)) > limit {
		return job.Attachment{}, &job.TooLarge{Name: name, Limit: limit}
	}
	sum := sha256.Sum256(b)
	a := job.Attachment{Job: id, Name: name, Media: media, SHA256: hex.EncodeToString(sum[:]), Size: int64(len(b))}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files[id+"/"+a.SHA256] = b
	return a, nil
}

func (s *shelf) Get(_ context.Context, id, sum string) (job.Attachment, io.ReadSeekCloser, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	b, ok := s.files[id+"/"+sum]
	if !ok {
		return job.Attachment{}, nil, fmt.Errorf("job %s, attachment %s: %w", id, sum, job.ErrNotFound)
	}
	return job.Attachment{Job: id, SHA256: sum, Size: int64(len(b))}, readCloser{bytes.NewReader(b)}, nil
}

// hang puts the invented pictures of a job into its record and onto the shelf.
func (s *shelf) hang(t testing.TB, rec *job.Job) {
	t.Helper()
	pics, err := invented.Hang(rec)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pics {
		s.files[rec.ID+"/"+p.Photo.File] = p.JPEG
	}
}

type readCloser struct{ *bytes.Reader }

func (readCloser) Close() error { return nil }

// photoShop is a shop that keeps pictures, with a car whose presets are set.
func photoShop(t testing.TB) (*shop, *shelf) {
	s := newShop(t)
	files := &shelf{files: map[string][]byte{}}
	s.srv.Config.Handler = New(Options{Records: s.m, Files: files, Shop: catalog.NewShop("Thornhythe Coachworks"), Clock: clock, Version: "test"})
	rec := s.record("0412")
	for path, text := range map[string]string{"survey.heightsRead": "as received", "presets.road.front": "0 mm", "presets.road.rear": "0 mm", "presets.down.front": "-60 mm", "presets.down.rear": "-60 mm",
		"presets.hump.front": "20 mm", "presets.hump.rear": "20 mm", "presets.high.front": "45 mm", "presets.high.rear": "45 mm",
		"ways.hump": "100 mm", "ways.humpLength": "900 mm"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	s.sign()
	return s, files
}

// side is a picture, w by h, of something that stands on a floor: 2.54 m between
// the hubs are 1,016 px, the floor lies at y = 700.
func sidePicture(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{210, 216, 220, 255}
			switch {
			case y > 700:
				c = color.RGBA{90, 92, 96, 255}
			case x > 50 && x < 1550 && y > 250 && y < 645:
				c = color.RGBA{160, 40, 40, 255}
			}
			for _, u := range []int{300, 1316} {
				if dx, dy := x-u, y-588; dx*dx+dy*dy < 115*115 {
					c = color.RGBA{20, 20, 22, 255}
				}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

// jpegOf is the picture as a file.
func jpegOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// exif puts an orientation into a JPEG.
func turned(file []byte, turn int) []byte {
	tiff := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00")
	binary.BigEndian.PutUint16(tiff[18:], uint16(turn))
	body := append([]byte("Exif\x00\x00"), tiff...)
	seg := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return append(append(append([]byte{}, file[:2]...), append(seg, body...)...), file[2:]...)
}

// picture is the body of a form with a file.
func picture(t testing.TB, name string, file []byte, pairs ...string) (body []byte, media string) {
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for i := 0; i < len(pairs); i += 2 {
		if err := w.WriteField(pairs[i], pairs[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	h := textproto.MIMEHeader{}
	h.Set("Content-Disposition", `form-data; name="picture"; filename="`+strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(name)+`"`)
	part, err := w.CreatePart(h)
	if err != nil {
		t.Fatal(err)
	}
	_, _ = part.Write(file)
	_ = w.Close()
	return b.Bytes(), w.FormDataContentType()
}

// send posts a picture.
func (s *shop) send(name string, file []byte, pairs ...string) answer {
	s.t.Helper()
	body, media := picture(s.t, name, file, pairs...)
	return s.read(s.c.Post(s.srv.URL+"/jobs/0412/photos", media, bytes.NewReader(body)))
}

// good sends a picture of the side with four marks.
func (s *shop) good() job.Photo {
	s.t.Helper()
	if a := s.send("side.jpg", jpegOf(s.t, sidePicture(1600, 900)), "view", "left side", "stands", "as received"); a.Status != http.StatusOK {
		s.t.Fatalf("the good picture: status %d\n%s", a.Status, a.Find(".err").Text())
	}
	rec := s.record("0412")
	id := rec.Photos[len(rec.Photos)-1].ID
	return s.mark(id, "300, 588", "1316, 588", "300, 700", "1316, 700")
}

// mark sets the four marks.
func (s *shop) mark(id string, marks ...string) job.Photo {
	s.t.Helper()
	at := "photos[" + id + "]."
	base := fmt.Sprint(len(s.m.revs["0412"]))
	if a := s.post("/jobs/0412/photos/"+id, ":base", base, at+"frontHub", marks[0], at+"rearHub", marks[1], at+"frontGround", marks[2], at+"rearGround", marks[3]); a.Status != http.StatusOK {
		s.t.Fatalf("marks: status %d", a.Status)
	}
	for _, ph := range s.record("0412").Photos {
		if ph.ID == id {
			return ph
		}
	}
	s.t.Fatal("the picture is gone")
	return job.Photo{}
}

func TestAPictureIsKept(t *testing.T) {
	s, files := photoShop(t)
	s.want(s.get("/jobs/0412/photos"), "h2", "No picture of this car yet")
	a := s.send("front yard_2.jpg", jpegOf(t, sidePicture(2400, 1350)), "view", "left side", "stands", "ROAD")
	if a.Status != http.StatusOK || a.URL.Path != "/jobs/0412/photos/h1" {
		t.Fatalf("status %d at %s, expected the page of the picture", a.Status, a.URL)
	}
	rev := s.m.revs["0412"][2]
	ph := s.record("0412").Photos[0]
	if rev.Author != "T. Marrow" || ph.Name != "front yard 2" || ph.View != "left side" || ph.Stands != "ROAD" {
		t.Errorf("revision %d by %s: %+v", rev.Number, rev.Author, ph)
	}
	kept := files.files["0412/"+ph.File]
	c, err := jpeg.DecodeConfig(bytes.NewReader(kept))
	if err != nil || c.Width != 1600 || c.Height != 900 {
		t.Errorf("kept as %d × %d, %v; expected 1600 × 900", c.Width, c.Height, err)
	}
	src, _ := a.Find(".ph img").Attr("src")
	r, err := s.c.Get(s.srv.URL + src)
	if err != nil {
		t.Fatal(err)
	}
	got, _ := io.ReadAll(r.Body)
	_ = r.Body.Close()
	if !bytes.Equal(got, kept) || r.Header.Get("Content-Type") != "image/jpeg" || r.Header.Get("ETag") != `"`+ph.File+`"` {
		t.Errorf("%s: %d bytes, %v; expected the %d that are kept", src, len(got), r.Header, len(kept))
	}
	// The same picture again is one file and a second entry.
	s.send("again.jpg", jpegOf(t, sidePicture(2400, 1350)), "view", "a detail")
	if n := len(s.record("0412").Photos); n != 2 || len(files.files) != 1 {
		t.Errorf("%d entries and %d files, expected 2 and 1", n, len(files.files))
	}
	s.want(s.get("/jobs/0412/photos"), ".phs-t .s:nth-of-type(2)", "the middle of the front wheel and the middle of the rear wheel are missing")
}

func TestAPictureIsTakenOut(t *testing.T) {
	s, files := photoShop(t)
	ph := s.good()
	rec := s.record("0412")
	rec.Outline.TracedPhoto = ph.ID
	s.keep(rec)
	if a := s.post("/jobs/0412/photos/" + ph.ID + "/remove"); a.Status != http.StatusOK || a.URL.Path != "/jobs/0412/photos" {
		t.Errorf("status %d at %s", a.Status, a.URL)
	}
	rec = s.record("0412")
	if len(rec.Photos) != 0 || rec.Outline.TracedPhoto != "" || files.files["0412/"+ph.File] == nil {
		t.Errorf("left in the record: %+v, traced %q; the file is there: %t, expected that it stays", rec.Photos, rec.Outline.TracedPhoto, files.files["0412/"+ph.File] != nil)
	}
	if a := s.get("/jobs/0412/photos/" + ph.ID); a.Status != http.StatusNotFound {
		t.Errorf("its page: status %d, expected 404", a.Status)
	}
}

func TestWhatIsNoPictureIsRefusedInWords(t *testing.T) {
	s, files := photoShop(t)
	good := jpegOf(t, sidePicture(640, 480))
	heic := append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), make([]byte, 200)...)
	for _, c := range []struct {
		name string
		file []byte
		says string
	}{
		{"letter.txt", []byte("Dear all,\nthe car is ready."), "text and not a picture"},
		{"IMG_1.HEIC", heic, "HEIC"},
		{"huge.jpg", append(append([]byte{}, good...), make([]byte, 26<<20)...), "more than 25 MB"},
		{"cut.jpg", good[:len(good)/2], "ends before the picture does"},
		{"small.jpg", jpegOf(t, sidePicture(120, 90)), "at least 200"},
		{"empty.jpg", nil, "nothing in it"},
		{"", nil, "no file was chosen"},
		{"..\\..\\\"odd\" \u202e <b>näme<b> 🚗.jpg", []byte("no"), "<b>näme"},
	} {
		a := s.send(c.name, c.file, "view", "rear", "stands", "HUMP", "name", "Behind the shed")
		says := a.Find(".phs-n .err").Text()
		if a.Status != http.StatusUnprocessableEntity || !strings.Contains(says, c.says) {
			t.Errorf("%q: status %d, %q; expected 422 and %q", c.name, a.Status, says, c.says)
		}
		if strings.Contains(a.Text, "<b>näme") || strings.Contains(says, "..") {
			t.Errorf("%q: the name stands raw on the page: %q", c.name, says)
		}
		if v, _ := a.Find("#ph-name").Attr("value"); v != "Behind the shed" || a.Find("#ph-view option[selected]").Text() != "rear" || a.Find("#ph-stands option[selected]").Text() != "HUMP" {
			t.Errorf("%q: what was typed is gone from the form", c.name)
		}
	}
	if len(files.files) != 0 || len(s.m.revs["0412"]) != 2 {
		t.Errorf("%d files and %d revisions, expected nothing kept", len(files.files), len(s.m.revs["0412"]))
	}
}

func TestAnUploadThatBreaksOff(t *testing.T) {
	s, _ := photoShop(t)
	body, media := picture(t, "side.jpg", jpegOf(t, sidePicture(1600, 900)), "view", "left side")
	body = body[:len(body)*2/3] // the form ends in the middle of the file
	a := s.read(s.c.Post(s.srv.URL+"/jobs/0412/photos", media, bytes.NewReader(body)))
	if a.Status != http.StatusUnprocessableEntity || !strings.Contains(a.Find(".phs-n .err").Text(), "did not arrive whole") {
		t.Errorf("status %d, %q", a.Status, a.Find(".phs-n .err").Text())
	}
	// The line goes dead: the server must not keep anything, nor wait for ever.
	c, err := net.Dial("tcp", strings.TrimPrefix(s.srv.URL, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(c, "POST /jobs/0412/photos HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: %s\r\nContent-Length: 9000000\r\n\r\n", media)
	_, _ = c.Write(body)
	_ = c.Close()
	time.Sleep(50 * time.Millisecond)
	if n := len(s.m.revs["0412"]); n != 2 {
		t.Errorf("%d revisions, expected 2", n)
	}
}

func TestNoFormAtAll(t *testing.T) {
	s, _ := photoShop(t)
	if a := s.post("/jobs/0412/photos", "view", "rear"); a.Status != http.StatusBadRequest {
		t.Errorf("status %d, expected 400", a.Status)
	}
}

func TestARotatedPictureStandsUpright(t *testing.T) {
	s, files := photoShop(t)
	s.send("turned.jpg", turned(jpegOf(t, sidePicture(800, 600)), 6), "view", "left side")
	ph := s.record("0412").Photos[0]
	c, err := jpeg.DecodeConfig(bytes.NewReader(files.files["0412/"+ph.File]))
	if err != nil || c.Width != 600 || c.Height != 800 {
		t.Errorf("kept as %d × %d, %v; expected 600 × 800", c.Width, c.Height, err)
	}
}

func TestAPictureAsksForAName(t *testing.T) {
	s, _ := photoShop(t)
	s.c.Jar = nil
	file := jpegOf(t, sidePicture(640, 480))
	a := s.send("side.jpg", file, "view", "front")
	if a.Status != http.StatusUnprocessableEntity || a.Find("#ph-signer").Length() != 1 {
		t.Errorf("status %d, expected the form with a box for the name", a.Status)
	}
	s.send("side.jpg", file, "view", "front", ":signer", "A. Fenn")
	if revs := s.m.revs["0412"]; len(revs) != 3 || revs[2].Author != "A. Fenn" {
		t.Errorf("%d revisions, expected the third by A. Fenn", len(revs))
	}
}

func TestNowhereToKeepPictures(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.want(s.get("/jobs/0412/photos"), ".note", "can be redrawn")
	if a := s.send("side.jpg", jpegOf(t, sidePicture(640, 480))); a.Status != http.StatusBadRequest {
		t.Errorf("status %d, expected 400", a.Status)
	}
}

func TestMarksSayTheirScale(t *testing.T) {
	s, _ := photoShop(t)
	ph := s.good()
	here := "/jobs/0412/photos/" + ph.ID
	a := s.get(here)
	s.want(a, "#scale-says li", "One pixel is 2.5 mm")
	if n := a.Find(".ph .at:not([hidden])").Length(); n != 4 {
		t.Errorf("%d crosses, expected 4", n)
	}
	for _, c := range []struct {
		marks []string
		says  string
	}{
		{[]string{"", "", "", ""}, "the middle of the front wheel"},
		{[]string{"300, 588", "", "", ""}, "the middle of the rear wheel is missing"},
		{[]string{"1316, 588", "300, 588", "", ""}, "Exchange the marks"},
		{[]string{"300, 588", "1316, 588", "300, 760", "1316, 760"}, "at an angle"},
		{[]string{"300 px", "1316, 588", "", ""}, "Two numbers were expected"},
		{[]string{"300, 588", "1316, 5880", "", ""}, "lies outside"},
		{[]string{"300, 588", "1316, 888", "", ""}, "12° are the most"},
	} {
		s.mark(ph.ID, c.marks...)
		if says := s.get(here).Find("#scale-says").Text(); !strings.Contains(says, c.says) {
			t.Errorf("%v: %q, expected %q", c.marks, says, c.says)
		}
	}
}

func TestHowItWillLook(t *testing.T) {
	s, _ := photoShop(t)
	ph := s.good()
	here := "/jobs/0412/photos/" + ph.ID
	a := s.get(here + "/look?preset=DOWN")
	s.want(a, "figcaption", "60 mm down")
	if lines := a.Find(".look-o").Text(); !strings.Contains(lines, "Floor") || !strings.Contains(lines, "Hump, 100") {
		t.Errorf("under the picture: %q, expected the floor and the hump", lines)
	}
	if a.Find(".ph path.hump").Length() != 2 || a.Find(".ph path.kerb,.ph path.ramp").Length() != 0 {
		t.Error("over the picture: expected the hump that was typed, and no kerb or ramp")
	}
	if a.Find(".ph text").Length() != 0 {
		t.Error("lettering stands on the picture")
	}
	src, _ := a.Find(".ph img").Attr("src")
	r, err := s.c.Get(s.srv.URL + src)
	if err != nil {
		t.Fatal(err)
	}
	m, err := jpeg.Decode(r.Body)
	_ = r.Body.Close()
	if err != nil || m.Bounds().Dx() != 1600 {
		t.Fatalf("%s: %v, %v", src, err, m)
	}
	// 60 mm are 24 px: the roof's edge at y = 250 lies at 274 now, the floor stays.
	for _, p := range []struct {
		y   int
		red bool
	}{{262, false}, {290, true}, {715, false}} {
		if c := color.RGBAModel.Convert(m.At(800, p.y)).(color.RGBA); (int(c.R) > int(c.B)+60) != p.red {
			t.Errorf("at 800, %d the picture is %v, expected the body there: %t", p.y, c, p.red)
		}
	}
	tag := r.Header.Get("ETag")
	req, _ := http.NewRequest("GET", s.srv.URL+src, nil)
	req.Header.Set("If-None-Match", tag)
	if r, err := s.c.Do(req); err != nil || tag == "" || r.StatusCode != http.StatusNotModified {
		t.Errorf("the same picture again, %s: %v %v, expected 304", tag, r.StatusCode, err)
	}
	if r, _ := s.c.Get(s.srv.URL + here + "/at/HUMP.jpg"); r.Header.Get("ETag") == tag || r.StatusCode != http.StatusOK {
		t.Errorf("HUMP: %d with the tag of DOWN", r.StatusCode)
	}
	if a := s.get(here + "/at/LOCKED.jpg"); a.Status != http.StatusNotFound {
		t.Errorf("a preset that is none: %d, expected 404", a.Status)
	}
}

func TestWhatKeepsAPictureFromBeingRedrawn(t *testing.T) {
	s, _ := photoShop(t)
	ph := s.good()
	here := "/jobs/0412/photos/" + ph.ID
	for path, c := range map[string]struct{ text, says, where string }{
		"photos[" + ph.ID + "].frontHub": {"", "front wheel is missing", here},
		"survey.wheelbase":               {"", "the wheelbase is missing", "/jobs/0412/record/body#survey.wheelbase"},
		"photos[" + ph.ID + "].stands":   {"", "The car stands at", here},
		"presets.down.front":             {"", "DOWN", "/jobs/0412/record/presets#presets.down.front"},
	} {
		rec := s.record("0412")
		was, err := rec.Field(path, true)
		if err != nil {
			t.Fatal(err)
		}
		before := was.Content()
		if err := rec.Set(path, c.text, true); err != nil {
			t.Fatal(err)
		}
		s.keep(rec)
		a := s.get(here + "/look?preset=DOWN")
		href, _ := a.Find(".look-s .act.do").Attr("href")
		if says := a.Find(".err").Text(); !strings.Contains(says, c.says) || href != c.where || a.Status != http.StatusOK {
			t.Errorf("%s: status %d, %q to %s; expected %q to %s", path, a.Status, says, href, c.says, c.where)
		}
		if a := s.get(here + "/at/DOWN.jpg"); a.Status != http.StatusBadRequest {
			t.Errorf("%s: the picture answers %d, expected 400 and a sentence", path, a.Status)
		}
		rec = s.record("0412")
		if err := rec.Set(path, before, true); err != nil {
			t.Fatal(err)
		}
		s.keep(rec)
	}
}

func TestThePaperGetsThePictures(t *testing.T) {
	s, files := photoShop(t)
	ph := s.good()
	var got []byte
	s.srv.Config.Handler = New(Options{Records: s.m, Files: files, Clock: clock, Papers: Papers{
		Design: func(_ *job.Job, _ job.Revision, _ *catalog.Shop, pictures func(string) ([]byte, error)) (pdf []byte, err error) {
			got, err = pictures(ph.File)
			return []byte("paper"), err
		}}})
	if a := s.get("/jobs/0412/papers/design.pdf"); a.Status != http.StatusOK || !bytes.Equal(got, files.files["0412/"+ph.File]) {
		t.Errorf("status %d, %d bytes of the picture came to the paper", a.Status, len(got))
	}
}

// A picture that a touch point names is a link of its own beside its row, and in
// the finding about it; one that the job does not have is none.
func TestPictureOfATouchPoint(t *testing.T) {
	s, _ := photoShop(t)
	ph := s.good()
	rec := s.record("0412")
	for path, text := range map[string]string{"touch[liner].photo": ph.ID, "touch[liner].name": "inner liner", "touch[liner].moves": "with the wheel", "touch[liner].meets": "tyre and liner", "touch[liner].wheel": "FL", "touch[liner].room": "89 mm ± 2 mm",
		"touch[joint].photo": "gone", "touch[joint].name": "exhaust joint", "touch[joint].moves": "with the body", "touch[joint].meets": "hard part and floor", "touch[joint].room": "104 mm ± 2 mm"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	page := s.get("/jobs/0412")
	list := page.Find("#order a.pic")
	if list.Length() != 1 || list.AttrOr("href", "") != "/jobs/0412/photos/"+ph.ID || !strings.Contains(strings.ToLower(list.AttrOr("aria-label", "")), "liner") || list.ParentsFiltered("a").Length() != 0 {
		h, _ := list.Parent().Html()
		t.Errorf("%d pictures in the order of touching: %s", list.Length(), h)
	}
	if in := page.Find(`.find a[href="/jobs/0412/photos/` + ph.ID + `"]`); in.Length() != 1 {
		t.Errorf("%d pictures in the findings", in.Length())
	}
}
