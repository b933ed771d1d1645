using System.Globalization;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using NodaTime;
using WaterScript.Cli;
using WaterScript.Cli.Commands;
using WaterScript.Cli.Files;
using WaterScript.Cli.Viewing;
using WaterScript.Tests.Documents.Charts;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>The command <c>view</c>: what it answers and whom, and that it draws what is saved.</summary>
public sealed class ViewTests : Workshop
{
    private const string Noon = "schedule own { every day; start at 20:00; steps { water extra for 5 min } }\n";
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task The_page_the_picture_and_its_changes_are_served()
    {
        Write("garden.water", Good);
        await WithServer(async (server, _) =>
        {
            var page = await Ask(server, Get(server, "/"));
            var picture = await Ask(server, Get(server, "/picture?1"));
            using var events = await Events.Open(server);

            Assert.StartsWith("HTTP/1.1 200 OK\r\n", page, StringComparison.Ordinal);
            Assert.Contains("connect-src 'self'", page, StringComparison.Ordinal);
            Assert.Contains("id=\"picture\"", picture, StringComparison.Ordinal);
            Assert.Equal(("1", ""), await events.Next());
        });
    }

    /// <summary>RFC 9110, 7.2: who is meant stands in Host; the attack is called DNS rebinding.</summary>
    [Theory]
    [InlineData("GET / HTTP/1.1\r\nHost: garden.example:PORT\r\n\r\n", "403 ")]
    [InlineData("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n", "403 ")]
    [InlineData("GET / HTTP/1.1\r\n\r\n", "403 ")]
    [InlineData("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nOrigin: https://garden.example\r\n\r\n", "403 ")]
    [InlineData("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nOrigin: null\r\n\r\n", "403 ")]
    [InlineData("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nHost: garden.example\r\n\r\n", "400 ")]
    [InlineData("GET / HTTP/1.1\r\nHost : 127.0.0.1:PORT\r\n\r\n", "400 ")]
    [InlineData("GET http://garden.example/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n", "400 ")]
    [InlineData("POST / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n", "405 ")]
    [InlineData("GET /../../etc/passwd HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n", "404 ")]
    [InlineData("nonsense\r\n\r\n", "400 ")]
    [InlineData("GET / HTTP/1.1\r\nHost: localhost:PORT\r\nOrigin: http://localhost:PORT\r\n\r\n", "200 ")]
    public async Task Only_a_browser_on_this_machine_that_means_this_address_is_answered(string request, string status)
    {
        Write("garden.water", Good);
        await WithServer(async (server, _) =>
        {
            var answer = await Ask(server, request.Replace("PORT", server.Port.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal));
            Assert.StartsWith($"HTTP/1.1 {status}", answer, StringComparison.Ordinal);
            Assert.Equal(status == "200 ", answer.Contains("<iframe", StringComparison.Ordinal));
        });
    }

    [Fact]
    public async Task Hostile_requests_are_answered_shortly_or_not_at_all_and_the_next_is_answered()
    {
        Write("garden.water", Good);
        await WithServer(async (server, _) =>
        {
            var random = new Random(2026);
            foreach (var number in Enumerable.Range(0, Samples.Of(400)))
            {
                var bytes = Encoding.Latin1.GetBytes(Get(server, "/"));
                for (var change = random.Next(1, 12); change > 0; change--) bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                if (number % 7 == 0) bytes = [.. bytes, .. new byte[random.Next(RequestHead.MostBytes * 2)]];
                if (number % 5 == 0) bytes = bytes[..random.Next(bytes.Length)];
                var answer = await Ask(server, bytes);
                Assert.True(answer.Length == 0 || answer.StartsWith("HTTP/1.1 ", StringComparison.Ordinal), answer);
            }

            Assert.StartsWith("HTTP/1.1 200 OK\r\n", await Ask(server, Get(server, "/")), StringComparison.Ordinal);
        });
    }

    [Fact]
    public async Task A_picture_is_drawn_anew_however_the_file_is_saved_and_stays_while_there_are_errors()
    {
        Write("garden.water", "include \"zones.water\"\n" + Good);
        Write("zones.water", "zone extra { output 9 }\n" + Noon);
        await WithServer(async (server, _) =>
        {
            using var events = await Events.Open(server);
            var (first, none) = await events.Next();
            Assert.Equal("", none);
            var saves = new Action<string>[]
            {
                text => Write("garden.water", text),
                text =>
                {
                    Write("garden.new", text);
                    File.Move(PathOf("garden.new"), PathOf("garden.water"), overwrite: true);
                },
                text =>
                {
                    File.Delete(PathOf("garden.water"));
                    Write("garden.water", text);
                },
                text =>
                {
                    File.Move(PathOf("garden.water"), PathOf("garden.water~"), overwrite: true);
                    Write("garden.water", text);
                },
                text =>
                {
                    using var file = new FileStream(PathOf("garden.water"), FileMode.Open, FileAccess.Write);
                    file.SetLength(0);
                    file.Write(Encoding.UTF8.GetBytes(text));
                },
            };
            var picture = int.Parse(first, CultureInfo.InvariantCulture);
            foreach (var number in Enumerable.Range(0, Samples.Of(50)))
            {
                var minutes = (number + 11).ToString(CultureInfo.InvariantCulture);
                saves[number % saves.Length]("include \"zones.water\"\n" + Good.Replace("10 min", minutes + " min", StringComparison.Ordinal));
                picture = await events.Until(state => state.Findings.Length == 0 && int.Parse(state.Picture, CultureInfo.InvariantCulture) > picture);
                Assert.Contains($"{minutes} min", await Ask(server, Get(server, "/picture")), StringComparison.Ordinal);
            }

            var good = await Ask(server, Get(server, "/picture"));
            Write("zones.water", "zone extra { output }\n" + Noon);
            Assert.Equal(picture, await events.Until(state => state.Findings.Contains("zones.water", StringComparison.Ordinal)));
            Assert.Equal(good, await Ask(server, Get(server, "/picture")));
            Write("zones.water", "zone extra \"Another\" { output 9 }\n" + Noon);
            await events.Until(state => state.Findings.Length == 0);

            // A file that is written in place is empty for a moment, and read so.
            for (var tries = 0; tries < 500 && !(await Ask(server, Get(server, "/picture"))).Contains("Another", StringComparison.Ordinal); tries++)
                await Task.Delay(Pause);
            Assert.Contains("Another", await Ask(server, Get(server, "/picture")), StringComparison.Ordinal);
        });
    }

    [BrowserFact]
    public async Task A_browser_shows_what_is_saved_and_keeps_the_last_picture_beside_an_error()
    {
        Write("garden.water", Good);
        await WithServer(async (server, _) =>
            Assert.Equal(("", "", 0), await Task.Run(() => Browser.Run("view.mjs", [server.Address, PathOf("garden.water")]))));
    }

    [Theory]
    [InlineData("view -", "view needs a file; standard input cannot be saved again")]
    [InlineData("view nothing.water --no-browser", "no such file: nothing.water")]
    [InlineData("view garden.water --port 70000", "--port must be 1 to 65535")]
    public void What_cannot_run_says_why(string line, string why)
    {
        Write("garden.water", Good);

        var result = RunLine(line);

        Assert.Equal(2, result.ExitCode);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
    }

    private async Task WithServer(Func<ViewServer, LivePicture, Task> use)
    {
        var surroundings = new Surroundings(Folder, _ => null, SystemClock.Instance);
        var terminal = new Terminal(
            surroundings, () => Stream.Null, Stream.Null, TextWriter.Null, TextWriter.Null, textHasColour: false, errorHasColour: false);
        var picture = new LivePicture(
            () => SiteSource.Open("garden.water", null, terminal), check => ViewCommand.Drawn(check, from: null, days: 1), surroundings);
        using var server = new ViewServer(picture, "garden.water", port: 0);
        using var stop = new CancellationTokenSource(Patience);
        picture.Draw();
        var running = Task.WhenAll(picture.FollowAsync(Pause, stop.Token), server.ServeAsync(stop.Token));
        await use(server, picture);
        Assert.False(stop.IsCancellationRequested, "it takes too long");
        await stop.CancelAsync();
        await running;
    }

    private static string Get(ViewServer server, string path) =>
        string.Create(CultureInfo.InvariantCulture, $"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{server.Port}\r\n\r\n");

    private static Task<string> Ask(ViewServer server, string request) => Ask(server, Encoding.Latin1.GetBytes(request));

    private static async Task<string> Ask(ViewServer server, byte[] request)
    {
        using var client = new TcpClient();
        await client.ConnectAsync("127.0.0.1", server.Port);
        var stream = client.GetStream();
        try
        {
            await stream.WriteAsync(request);
            client.Client.Shutdown(SocketShutdown.Send);
            using var reader = new StreamReader(stream, Encoding.UTF8);
            return await reader.ReadToEndAsync();
        }
        catch (IOException)
        {
            return "";
        }
    }

    /// <summary>Reads what the page is sent.</summary>
    private sealed class Events : IDisposable
    {
        private readonly TcpClient _client;
        private readonly StreamReader _reader;

        private Events(TcpClient client) => (_client, _reader) = (client, new StreamReader(client.GetStream(), Encoding.UTF8));

        public static async Task<Events> Open(ViewServer server)
        {
            var client = new TcpClient();
            await client.ConnectAsync("127.0.0.1", server.Port);
            await client.GetStream().WriteAsync(Encoding.Latin1.GetBytes(Get(server, "/events")));
            return new Events(client);
        }

        public async Task<(string Picture, string Findings)> Next()
        {
            while (await _reader.ReadLineAsync() is { } line)
            {
                if (!line.StartsWith("data: ", StringComparison.Ordinal)) continue;
                using var data = JsonDocument.Parse(line["data: ".Length..]);
                return (data.RootElement.GetProperty("picture").GetString()!, data.RootElement.GetProperty("findings").GetString()!);
            }

            throw new EndOfStreamException("no more is sent");
        }

        public async Task<int> Until(Func<(string Picture, string Findings), bool> isMeant)
        {
            while (true)
            {
                var state = await Next();
                if (isMeant(state)) return int.Parse(state.Picture, CultureInfo.InvariantCulture);
            }
        }

        public void Dispose()
        {
            _reader.Dispose();
            _client.Dispose();
        }
    }
}
