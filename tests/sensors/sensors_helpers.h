#pragma once
// A folder of its own, files in it, and a free port of this machine.

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace redd::sensors {

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "redd-test-XXXXXX").string();
    EXPECT_NE(mkdtemp(name.data()), nullptr);
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  /// Writes a file, with the folders above it.
  std::filesystem::path write(const std::string& name, const std::string& text, int mode = 0600) const {
    const auto file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
    std::filesystem::permissions(file, static_cast<std::filesystem::perms>(mode));
    return file;
  }

 private:
  std::filesystem::path path_;
};

inline int free_port() {
  const int s = socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  EXPECT_EQ(bind(s, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
  socklen_t size = sizeof address;
  EXPECT_EQ(getsockname(s, reinterpret_cast<sockaddr*>(&address), &size), 0);
  close(s);
  return ntohs(address.sin_port);
}

}  // namespace redd::sensors
