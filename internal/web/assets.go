package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"strings"

	"jounce/internal/draw/font"
	"jounce/internal/draw/svg"
)

//go:embed static
var staticFiles embed.FS

// asset is one file as it is served.
type asset struct {
	media string
	body  []byte
	gzip  []byte // nil where packing gains nothing
}

// assets are the files of the pages under names with a hash of their content.
// They never change under one name, so browsers keep them for good.
type assets struct {
	served map[string]asset  // by hashed name
	names  map[string]string // plain name to hashed name
}

var medias = map[string]string{".css": "text/css; charset=utf-8", ".mjs": "text/javascript; charset=utf-8",
	".svg": "image/svg+xml", ".woff2": "font/woff2", ".txt": "text/plain; charset=utf-8"}

// newAssets takes the embedded files, the faces and one style sheet made of the
// palette, the faces' rules, the figures' rules and all static/*.css.
func newAssets() *assets {
	a := &assets{served: map[string]asset{}, names: map[string]string{}}
	for _, f := range font.Faces {
		a.add(f.File(".woff2"), f.WOFF2())
	}
	a.add("OFL.txt", []byte(font.Licence()))
	sheet := ":root{" + svg.Tokens() + "}\n" + font.CSS(a.url) + svg.CSS()
	list, err := fs.ReadDir(staticFiles, "static")
	if err != nil {
		panic("web: " + err.Error())
	}
	for _, e := range list {
		if path.Ext(e.Name()) == ".css" {
			sheet += string(static(e.Name()))
			continue
		}
		a.script(e.Name())
	}
	a.add("jounce.css", []byte(sheet))
	return a
}

func static(name string) []byte {
	body, err := staticFiles.ReadFile("static/" + name)
	if err != nil {
		panic("web: " + err.Error())
	}
	return body
}

// imported is where a module names another: from "./live.mjs".
var imported = regexp.MustCompile(`from "\./([a-z-]+\.mjs)"`)

// aside is what a browser does not read: lines of comment and space before lines.
var aside = regexp.MustCompile(`(?m)^\s*(//.*)?\n?`)

// script adds a file of static/. The modules that it imports are added before it
// and named in it by their hashed names.
func (a *assets) script(name string) {
	if a.names[name] != "" {
		return
	}
	body := imported.ReplaceAllFunc(aside.ReplaceAll(static(name), nil), func(from []byte) []byte {
		other := string(imported.FindSubmatch(from)[1])
		a.script(other)
		return []byte(`from "./` + a.names[other] + `"`)
	})
	a.add(name, body)
}

func (a *assets) add(name string, body []byte) {
	ext := path.Ext(name)
	media, ok := medias[ext]
	if !ok {
		panic("web: asset " + name + " has no media type")
	}
	sum := sha256.Sum256(body)
	hashed := strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:6]) + ext
	var packed bytes.Buffer
	if ext != ".woff2" {
		z, _ := gzip.NewWriterLevel(&packed, gzip.BestCompression)
		_, _ = z.Write(body) // into memory
		_ = z.Close()
	}
	as := asset{media: media, body: body}
	if n := packed.Len(); n > 0 && n < len(body) {
		as.gzip = packed.Bytes()
	}
	a.served[hashed], a.names[name] = as, hashed
}

// url is the address of an asset. An unknown name is a broken build.
func (a *assets) url(name string) string {
	h, ok := a.names[name]
	if !ok {
		panic("web: no asset " + name)
	}
	return "/static/" + h
}

// ServeHTTP serves a file under its hashed name.
func (a *assets) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	as, ok := a.served[r.PathValue("file")]
	if !ok {
		http.NotFound(w, r)
		return
	}
	h := w.Header()
	h.Set("Content-Type", as.media)
	h.Set("Cache-Control", "public, max-age=31536000, immutable")
	body := as.body
	if as.gzip != nil {
		h.Set("Vary", "Accept-Encoding")
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.Set("Content-Encoding", "gzip")
			body = as.gzip
		}
	}
	_, _ = w.Write(body) // the reader may be gone
}
